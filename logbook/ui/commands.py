"""Every command of the screens, declared once: footer, bindings, palette and help derive from it.

A key does the same on every screen. Keys are plain letters, digits, Enter, Space, Esc, arrows and
F2–F10, which multiplexers, flow control and old terminals leave alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from textual.binding import Binding, BindingType

from logbook.handbook import Key


@dataclass(frozen=True, slots=True)
class Command:
    """One thing that can be asked for. `words` stand in the footer, `tip` in help and palette."""

    name: str
    key: str
    words: str
    tip: str
    also: tuple[str, ...] = ()

    @property
    def key_words(self) -> str:
        """The key as the footer writes it."""
        return words_of_key(self.key)


KEY_WORDS = {
    "enter": "enter",
    "question_mark": "?",
    "slash": "/",
    "escape": "esc",
    "right": "→",
    "left": "←",
    "pagedown": "PgDn",
    "pageup": "PgUp",
    "space": "space",
    "plus": "+",
    "minus": "-",
    "equals_sign": "=",
    "up": "↑",
    "down": "↓",
    "colon": ":",
    "comma": ",",
    "full_stop": ".",
    "f1": "F1",
    "f2": "F2",
    "f3": "F3",
    "f4": "F4",
    "f5": "F5",
    "f6": "F6",
    "f7": "F7",
    "f8": "F8",
    "f9": "F9",
    "f10": "F10",
    "ctrl+c": "ctrl+c",
}


def words_of_key(key: str) -> str:
    """Write a key as people do."""
    return KEY_WORDS.get(key, key)


_ALL = (
    Command("done", "enter", "done", "Write that the chore was done now."),
    Command("at", "t", "when?", "Write that it was done, at another time."),
    Command("part", "p", "part", "Do it on some of the trays only."),
    Command("jot", "j", "jot", "Jot a note on the tray, line or shelf."),
    Command("look", "l", "look", "Write what you see: height, mould, leaves, sign to cut."),
    Command("skip", "s", "skip", "Leave the chore out this time, with the reason."),
    Command("undo", "u", "undo", "Strike what you wrote last."),
    Command("move", "m", "move", "Move trays to another place."),
    Command("discard", "d", "throw out", "Throw trays out, with the reason."),
    Command("unfold", "space", "single", "Open the line to single trays, or close it.", ("right",)),
    Command("mark", "space", "mark", "Mark the tray for the next key; marked trays go together."),
    Command("write", "enter", "write", "Write the weight; the next tray is offered."),
    Command("offer_after", "down", "next tray", "Offer the next tray that is left to cut."),
    Command("offer_before", "up", "tray before", "Offer the tray before."),
    Command("open", "enter", "open", "Open what the cursor is on."),
    Command("weigh", "w", "weigh", "Weigh the cut: tray number, grams, Enter.", ("f7",)),
    Command("sow", "n", "sow", "Sow a new batch, or plan one.", ("f6",)),
    Command("batch", "b", "batch", "Open the batch of this tray."),
    Command("tray_before", "left", "tray before", "Go to the tray before it in its batch."),
    Command("tray_after", "right", "tray after", "Go to the tray after it in its batch."),
    Command("add", "plus", "add", "Add a new one."),
    Command("edit", "e", "edit", "Change what the cursor is on."),
    Command("copy", "c", "copy", "Copy it under another name."),
    Command("retire", "x", "retire", "Retire it: it stays in the record and is not offered."),
    Command("sooner", "minus", "walk earlier", "Move it one step earlier in walking order."),
    Command("later_walk", "equals_sign", "walk later", "Move it one step later in walking order."),
    Command("sow_from", "n", "sow", "Sow a batch from this template, or plan one.", ("f6",)),
    Command("before", "left", "earlier", "Go one day back.", ("comma",)),
    Command("after", "right", "later", "Go one day on.", ("full_stop",)),
    Command("today", "t", "today", "Go to today."),
    Command("filter", "f", "filter", "Show only one tray, crop or kind."),
    Command("strike", "k", "strike", "Strike the entry, with the reason."),
    Command("save", "f9", "save", "Save the form."),
    Command("below", "down", "next line", "Go to the next line of the form, as Enter does."),
    Command("above", "up", "line before", "Go to the line before."),
    Command("further", "pagedown", "preview on", "Move on in what stands below the form."),
    Command("nearer", "pageup", "preview back", "Move back in what stands below the form."),
    Command("chapter_before", "left", "chapter before", "Go to the chapter before."),
    Command("chapter_after", "right", "next chapter", "Go to the next chapter."),
    Command("round", "f2", "round", "The round: what every tray needs, as you walk.", ("r",)),
    Command("racks", "f3", "racks", "The racks with the trays in their slots."),
    Command("due", "f4", "due", "What is or will be ready to cut."),
    Command("page", "f5", "page", "A day's entries."),
    Command("templates", "f8", "templates", "Crop templates."),
    Command("places", "f10", "places", "Racks and shelves."),
    Command("handbook", "h", "handbook", "The handbook: by job, from the first day on."),
    Command("jump", "g", "go to", "Go to another screen."),
    Command("search", "slash", "search", "Search the notes."),
    Command("back", "escape", "back", "Go back."),
    Command("help", "question_mark", "more", "The keys of this screen.", ("f1",)),
    Command("palette", "colon", "all commands", "Find a command by its name."),
    Command("quit", "q", "quit", "Close the book.", ("ctrl+c",)),
)
COMMANDS: Mapping[str, Command] = {command.name: command for command in _ALL}

EVERYWHERE = (
    "weigh", "sow", "round", "racks", "due", "page", "templates", "places", "handbook", "jump",
    "search", "undo", "back", "help", "palette", "quit",
)  # fmt: skip
"""Commands that every screen has."""


def keys_everywhere() -> list[Key]:
    """Give the keys of every screen, for the handbook."""
    return [_key(COMMANDS[name]) for name in EVERYWHERE]


def keys_here() -> list[Key]:
    """Give the keys that some screens have, for the handbook."""
    return [_key(command) for command in _ALL if command.name not in EVERYWHERE]


def _key(command: Command) -> Key:
    keys = " or ".join(words_of_key(key) for key in (command.key, *command.also))
    return Key(command.words, keys, command.tip)


def bindings(*names: str) -> list[BindingType]:
    """Give the bindings of commands by their names."""
    made: list[BindingType] = []
    for name in names:
        command = COMMANDS[name]
        keys = ",".join((command.key, *command.also))
        made.append(
            Binding(
                keys,
                name if name != "back" else "go_back",
                command.words,
                id=name,
                key_display=command.key_words,
                tooltip=command.tip,
            )
        )
    return made
