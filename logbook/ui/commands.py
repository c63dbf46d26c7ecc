"""Every command of the screens, declared once: footer, bindings, palette and help derive from it.

A key does the same on every screen. Keys are plain letters, digits, Enter, Space, Esc, arrows and
F2–F10, which multiplexers, flow control and old terminals leave alone.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import permutations

from textual.binding import Binding, BindingType

from logbook.handbook import Key
from logbook.text import Refused, clean, nearest
from logbook.ui.command import KEY_WORDS, Command, words_of_key
from logbook.ui.screens import SCREENS

_ALL = (
    Command("done", "enter", "done", "Write that the chore was done now: water, lid, lights.", writes=True, on_line=True),
    Command("at", "t", "other time",
            "Write that it was done at another time; for a watering also amount, pH, EC.",
            action="done('at')", on_line=True),
    Command("part", "p", "some trays", "Do it on some of the trays only.", action="done('part')", on_line=True),
    Command("whole", "W", "whole shelf", "Do it on every tray of the shelf that needs it now.",
            action="done('whole')", writes=True, on_line=True),
    Command("jot", "j", "jot", "Jot a note on the tray, line or shelf.", on_line=True),
    Command("look", "l", "look", "Write what you see: height, mould, leaves, ready sign.", on_line=True),
    Command("skip", "s", "skip", "Leave the chore out this time, with the reason.", on_line=True),
    Command("undo", "u", "undo", "Undo what you wrote last.", everywhere=True, writes=True),
    Command("redo", "U", "redo", "Bring back what undo took, if nothing was written since.",
            everywhere=True, writes=True),
    Command("move", "m", "move", "Move trays to another place.", on_line=True),
    Command("discard", "d", "discard", "Discard trays, with the reason.", on_line=True),
    Command("unfold", "space", "split", "Open the line into single trays, or close it.",
            shows=True, on_line=True),
    Command("mark", "space", "mark", "Mark the tray for the next key; marked trays go together.",
            shows=True, on_line=True),
    Command("write", "enter", "write", "Write the weight; the next tray is offered."),
    Command("offer_after", "down", "next tray", "Go to the next tray left to cut.",
            action="offer(1)"),
    Command("offer_before", "up", "tray before", "Go back to the tray before.", action="offer(-1)"),
    Command("open", "enter", "open", "Open what the cursor is on.", on_line=True),
    Command("batch", "b", "batch", "Open the batch of this tray.", shows=True, on_line=True),
    Command("tray_before", "left", "tray before", "Go to the tray before it in its batch.",
            action="turn(-1)"),
    Command("tray_after", "right", "tray after", "Go to the tray after it in its batch.",
            action="turn(1)"),
    Command("numbered", "O", "same number", "Go to the other trays that had this number."),
    Command("pack", "enter", "packed", "Tick the line as packed, or untick it.", writes=True, on_line=True),
    Command("take_out", "enter", "take out", "Write waste, own use, or what a customer returned.", on_line=True),
    Command("pause", "s", "pause", "Pause a customer's orders for some days.", on_line=True),
    Command("add", "plus", "add", "Add a new one."),
    Command("edit", "e", "edit", "Change what the cursor is on.", on_line=True),
    Command("copy", "c", "copy", "Copy it under another name.", on_line=True),
    Command("retire", "x", "retire", "Retire it: it stays in the record and is no longer offered.", on_line=True),
    Command("finish", "enter", "finish", "Everyone was reached: keep the recall, practice or real."),
    Command("hold", "Q", "hold", "Put it on hold, with the reason: it isn't sown, cut or sold until its release.",
            on_line=True),
    Command("release", "enter", "release", "Release what is on hold, with the reason.", on_line=True),
    Command("sooner", "minus", "move up", "Move it up one step in walking order.",
            action="walk_past(False)", on_line=True),
    Command("later_walk", "equals_sign", "move down", "Move it down one step in walking order.",
            action="walk_past(True)", on_line=True),
    Command("sow_from", "n", "sow", "Sow a batch from this template, or plan one.", ("f6",), on_line=True),
    Command("before", "left", "earlier", "Go one day back.", ("comma",)),
    Command("after", "right", "later", "Go one day forward.", ("full_stop",)),
    Command("today", "f5", "today", "Go to today."),
    Command("filter", "f", "filter", "Show only one tray, crop or kind."),
    Command("strike", "k", "strike", "Strike out the entry, with the reason; write what is right in its place.", on_line=True),
    Command("sow_arms", "n", "sow", "Sow all arms of the trial once: another week.", ("f6",)),
    Command("leave_out", "X", "leave out", "Leave the tray out of the judging, with the reason.", on_line=True),
    Command("tasting", "T", "taste", "Taste blind: codes, scores, or who finds the odd cup."),
    Command("counts", "C", "counts", "Say what counts, what seed and work cost, and when it ends."),
    Command("decide", "D", "decide", "Write what was decided and what to try next."),
    Command("adopt", "A", "adopt", "Make an arm the crop template, as a new version."),
    Command("save", "f9", "save", "Save the form."),
    Command("below", "down", "next line", "Go to the next line of the form, as Enter does."),
    Command("above", "up", "line before", "Go to the line before."),
    Command("further", "pagedown", "preview on", "Scroll down in the preview."),
    Command("nearer", "pageup", "preview back", "Scroll up in the preview."),
    Command("reading", "i", "reading",
            "Enter a reading: light, air, water; a watering; power off; cleaning.",
            everywhere=True),
    Command("measure", "enter", "measure", "Walk round the shelf with the meter, spot after spot."),
    Command("labels", "I", "print",
            "Write a sheet of labels for packs of a lot, or of tapes for trays; on deliveries a "
            "delivery note.",
            everywhere=True),
    Command("span", "H", "how long", "Show a longer or a shorter time.", shows=True),
    Command("accept", "enter", "accept", "Plan the sowing, or all of the day's, on the round.", on_line=True),
    Command("calendar", "N", "calendar", "Write what is coming up to a file for calendar programs."),
    Command("promise", "J", "can I say yes?", "Say whether an order can be promised, and from when."),
    Command("split", "P", "split by", "Split each crop by version, shelf, season, lot or person.",
            shows=True),
    Command("drawn", "Y", "what to draw", "Draw temperature, humidity or VPD.", shows=True),
    Command("life", "b", "a batch", "Show the air over a batch's life.", shows=True),
    Command("ask_pack", "b", "its life", "Show the life of the pack in ten lines, or its trace again.",
            shows=True),
    Command("chapter_before", "left", "chapter before", "Go to the chapter before.",
            action="turn(-1)"),
    Command("chapter_after", "right", "next chapter", "Go to the next chapter.", action="turn(1)"),
    Command("copy_line", "z", "copy line", "Copy the line under the cursor to the clipboard and a file.",
            everywhere=True, action="copy_out('line_words')", shows=True),
    Command("copy_page", "Z", "copy page", "Copy all that this screen lists to the clipboard and a file.",
            everywhere=True, action="copy_out('page_words')", shows=True),
    Command("colours", "V", "colours", "The next colour theme: dark, light, contrast, terminal.",
            everywhere=True, shows=True),
    Command("settings", "semicolon", "settings", "Your colours, signs, bell and initials: try them, then save.",
            everywhere=True),
    Command("jump", "g", "go to", "Go to another screen.", everywhere=True),
    Command("search", "slash", "search", "Search notes, looks and seed lots.", everywhere=True),
    Command("back", "escape", "back", "Go back.", action="go_back", everywhere=True),
    Command("help", "question_mark", "more", "The keys of this screen.", ("f1",), everywhere=True,
            shows=True),
    Command("palette", "colon", "all commands", "Find a command by its name or by what it does.", everywhere=True,
            action="command_palette"),
    Command("repaint", "ctrl+l", "redraw",
            "Redraw the screen, if another program wrote over it.", everywhere=True),
    Command("quit", "q", "quit", "Leave the program from the round; on any other screen, go back.",
            everywhere=True),
    Command("close", "ctrl+c", "close", "Close the book and leave, from any screen.", everywhere=True),
    Command("suspend", "ctrl+z", "suspend", "Go to the shell for a while; fg comes back.",
            everywhere=True, shows=True),
)  # fmt: skip
_GOING = tuple(each.command for each in SCREENS.values() if each.command is not None)
COMMANDS: Mapping[str, Command] = {command.name: command for command in (*_GOING, *_ALL)}

EVERYWHERE = tuple(command.name for command in COMMANDS.values() if command.everywhere)
"""Commands that every screen has."""


def keys_listed(commands: Mapping[str, Command] = COMMANDS) -> tuple[list[Key], list[Key]]:
    """The keys for the handbook: those that some screens have, and those of every screen."""
    here: list[Key] = []
    everywhere: list[Key] = []
    for each in commands.values():
        key = Key(each.name, " or ".join(map(words_of_key, each.keys)), each.tip)
        (everywhere if each.everywhere else here).append(key)
    return here, everywhere


def keyed(text: str, commands: Mapping[str, Command]) -> str:
    """Put the keys of commands into a sentence: "{undo} undoes" with the key that undo has."""

    def key(found: re.Match[str]) -> str:
        command = commands.get(found[1])
        return found[0] if command is None else command.key_words

    return re.sub(r"\{(\w+)\}", key, text)


def bindings(*names: str) -> list[BindingType]:
    """What Textual binds for these commands: the id lets the settings change a key."""
    return [
        Binding(
            ",".join(each.keys), each.action, each.words, id=each.name,
            key_display=each.key_words, tooltip=each.tip,
        )
        for each in map(COMMANDS.__getitem__, names)
    ]  # fmt: skip


SAFE = re.compile(
    r"[a-zA-Z]|f([1-9]|10)|ctrl\+[cdefgklnortuvwxy]|" + "|".join(map(re.escape, KEY_WORDS))
)
"""Keys that every terminal and multiplexer hands on; digits begin a tray number."""
NAMES = {words: key for key, words in KEY_WORDS.items()}


def with_keys(
    wanted: Mapping[str, str], screens: Mapping[str, Iterable[str]]
) -> Mapping[str, Command]:
    """The commands with the keys that the settings want for some of them, or Refused.

    A command is named by its name or by its words in the footer. `screens` holds what each
    screen's own commands are. The other keys of a command stay, and Esc always goes back.
    """
    made = dict(COMMANDS)
    by_words = {"throw out": "discard"}  # what it was once called
    by_words |= {command.words: command.name for command in reversed([*COMMANDS.values()])}
    changed: set[str] = set()
    for called, given in wanted.items():
        name = called if called in made else by_words.get(called, "")
        if not name:
            raise Refused(
                f'The settings give a key to "{clean(called, lines=False)}", which is not a '
                "command."
                f"{nearest(called, [*made, *by_words])}"
            )
        changed.add(name)
        key = NAMES.get(given, given)
        if not SAFE.fullmatch(key):
            raise Refused(
                f'The key "{clean(given, lines=False)}" for {name} does not come through every '
                "terminal, or begins a tray number; use a letter, a sign such as + or F1 to F10."
            )
        also = (*made[name].also, *(("escape",) if name == "back" else ()))
        made[name] = replace(made[name], key=key, also=also)
    for own in screens.values():
        for name, other in permutations(dict.fromkeys((*own, *EVERYWHERE)), 2):
            if name in changed and made[name].key in made[other].keys:
                raise Refused(
                    f'The settings give {name} the key "{made[name].key_words}", which '
                    f"{other} has on the same screen; give {other} another key too."
                )
    return made
