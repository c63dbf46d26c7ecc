"""The handbook: one Markdown file for each job, in the order in which they are read.

The last three chapters are made from declarations when they are shown.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from logbook.text import Refused, fold, nearest

FOLDER = Path(__file__).parent
WRITTEN = (
    "first-day", "day", "week", "seed", "orders", "planning", "yields", "readings", "trial", "sure", "recall", "records", "book",
    "pi", "phone", "server", "scripts", "tables",
)  # fmt: skip
"""The chapters that are files here, in order."""
ENTRIES = "entries"
"""The chapter that is made from the kinds of entries."""
CARE = "cautions"
"""The chapter that is made from the list of cautions."""
KEYS = "keys"
"""The chapter that is made from the declared commands."""
CHAPTERS = (*WRITTEN, CARE, ENTRIES, KEYS)

_MADE = {CARE: "Take care", ENTRIES: "All kinds of entries", KEYS: "All keys and commands"}
_PICTURE = re.compile(r"^!\[[^]]*\]\([^)]*\)\n+", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Key:
    """A key of the screens: its command's name, which keys do it, what it does."""

    name: str
    keys: str
    tip: str


@dataclass(frozen=True, slots=True)
class Plain:
    """A plain command: how it is written ("weigh TRAY GRAMS") and what it does."""

    usage: str
    tip: str


def chapter_text(name: str) -> str:
    """A written chapter as it stands in its file."""
    return (FOLDER / f"{name}.md").read_text(encoding="utf-8")


def title_of(name: str) -> str:
    """A chapter's title: its first heading."""
    if name in _MADE:
        return _MADE[name]
    return chapter_text(name).partition("\n")[0].removeprefix("# ")


def named_chapter(text: str) -> str:
    """Find a chapter by its name or the beginning of it; raise Refused when there is none."""
    wanted = fold(text).replace(" ", "-")
    if wanted in CHAPTERS:
        return wanted
    begun = [name for name in CHAPTERS if wanted and name.startswith(wanted)]
    if len(begun) == 1:
        return begun[0]
    raise Refused(
        f'The handbook has no chapter "{text[:40]}".{nearest(wanted, list(CHAPTERS))} '
        f"It has {', '.join(CHAPTERS)}."
    )


def without_pictures(markdown: str) -> str:
    """Leave out the pictures, which a terminal does not show."""
    return _PICTURE.sub("", markdown)


def entries_chapter(kinds: Mapping[str, Sequence[str]]) -> str:
    """The chapter of all kinds of entries: what narrows a page, and what it shows then."""
    lines = [
        f"# {title_of(ENTRIES)}",
        "",
        "A page can be narrowed to one of these, in the app and with `logbook page --kind`.",
        "",
        *(f"- **{name}** — {'; '.join(purposes)}" for name, purposes in kinds.items()),
    ]
    return "\n".join([*lines, ""])


def cautions_chapter(cautions: Iterable[tuple[str, Sequence[str], str]], last_word: str) -> str:
    """The chapter of cautions: what each is about, its sentences, its source."""
    lines = [f"# {title_of(CARE)}", "", last_word]
    for about, words, source in cautions:
        lines += [
            "",
            f"## {about.capitalize()}",
            "",
            *(f"- {each}" for each in words),
            "",
            f"Source: {source}.",
        ]
    return "\n".join([*lines, ""])


def keys_chapter(here: Iterable[Key], everywhere: Iterable[Key], plain: Iterable[Plain]) -> str:
    """Write the chapter of all keys and commands."""
    lines = [
        f"# {title_of(KEYS)}",
        "",
        "A key does the same on every screen that has it. `?` shows those of the screen you are on.",
        "The name beside a key is the one to write in the settings to give it another.",
        "",
        "## Keys of every screen",
        "",
        *(_key_line(key) for key in everywhere),
        "",
        "## Keys of some screens",
        "",
        *(_key_line(key) for key in here),
        "",
        "Digits begin a tray number. Arrows, PgUp, PgDn, Home and End walk.",
    ]
    commands = [f"- `logbook {each.usage}` — {each.tip}" for each in plain]
    if commands:
        lines += [
            "",
            "## Plain commands",
            "",
            "`logbook COMMAND --help` says more of each, with examples.",
            "",
            *commands,
        ]
    return "\n".join([*lines, ""])


def _key_line(key: Key) -> str:
    return f"- `{key.keys}` **{key.name}** — {key.tip}"
