"""Text from people: cleaned on the way in, and the one family of errors that people read."""

import re
import unicodedata
from collections.abc import Iterable, Sequence

LONGEST_NOTE = 20_000
LONGEST_NAME = 80

HARMFUL = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]"
)
"""Marks that no text of a book holds: control codes but the line break, bidi marks and
overrides, line and paragraph separators, the byte order mark, surrogates."""


class Refused(Exception):  # noqa: N818 - it is an answer to the grower, not a fault of the program
    """Something was asked that cannot be done; the message is a sentence that says what would.

    Nothing has been written when this is raised. What a person typed may be in the sentence: it
    is cleaned, so that it can be shown anywhere. `about` names the part of the draft that is
    wrong, where one is, so that a form can say it beside that line.
    """

    def __init__(self, sentence: str, about: str = "") -> None:
        super().__init__(clean(sentence, lines=False))
        self.about = about


def clean(text: str, *, lines: bool = True) -> str:
    """The text without what could harm a terminal: control codes, bidi overrides, surrogates.

    Letters, marks, emoji, brackets and markup stay as they are. Composed to NFC. With lines=False
    line breaks and tabs become spaces.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if not lines:
        text = text.replace("\n", " ")
    text = text.replace("\t", " ")
    return unicodedata.normalize("NFC", HARMFUL.sub("", text)).strip()


def stored_text(data: bytes) -> str:
    """Text as a file holds it, without HARMFUL marks: another program may have written it there."""
    text = data.decode()
    return text if text.isprintable() else HARMFUL.sub("", text)


def clean_note(text: str) -> str:
    """Clean a note of up to LONGEST_NOTE characters; raise Refused when it is longer."""
    note = clean(text)
    if len(note) > LONGEST_NOTE:
        raise Refused(
            f"The note has {len(note):,} characters; the book takes up to {LONGEST_NOTE:,}. "
            "Shorten it or write two."
        )
    return note


def clean_reason(text: str) -> str:
    """Clean a reason, as clean_note(); raise Refused when there is none."""
    reason = clean_note(text)
    if not reason:
        raise Refused("Please give a reason; one word will do.")
    return reason


def clean_name(text: str, what: str = "name") -> str:
    """Clean a one-line name; raise Refused when nothing is left or it is too long."""
    name = clean(text, lines=False)
    if not name:
        raise Refused(f"The {what} is empty; give at least one letter.")
    if len(name) > LONGEST_NAME:
        raise Refused(f"The {what} has {len(name)} characters; use up to {LONGEST_NAME}.")
    return name


def clean_words(text: str, what: str, most: int = LONGEST_NAME) -> str:
    """Clean a line of own words, which may be empty; raise Refused when it is too long."""
    words = clean(text, lines=False)
    if len(words) > most:
        raise Refused(f"The {what} has {len(words):,} characters; use up to {most}.")
    return words


def fold(text: str) -> str:
    """The form of a name in which two spellings are compared: case-folded, single spaces."""
    return " ".join(unicodedata.normalize("NFKC", HARMFUL.sub(" ", text)).casefold().split())


def yes_no(text: str, what: str) -> bool | None:
    """Read y or n; None for nothing; raise Refused otherwise."""
    word = clean(text, lines=False).casefold()
    if not word:
        return None
    if word in ("y", "yes", "j", "1", "+"):
        return True
    if word in ("n", "no", "0", "-"):
        return False
    raise Refused(f"{what}: write y or n, or leave it empty.")


def listed(words: list[str] | tuple[str, ...], most: int = 8, joint: str = "and") -> str:
    """Join words as a sentence does: "a, b and c"; past `most` the rest is counted."""
    if not words:
        return ""
    if len(words) > most:
        return ", ".join(words[:most]) + f" and {len(words) - most} more"
    if len(words) == 1:
        return words[0]
    return ", ".join(words[:-1]) + f" {joint} {words[-1]}"


def nearest(word: str, known: list[str]) -> str:
    """A hint ' Did you mean "x"?' for a mistyped name, or '' when nothing is near."""
    import difflib

    folded = {fold(name): name for name in known}
    close = difflib.get_close_matches(fold(word), list(folded), n=1, cutoff=0.6)
    return f' Did you mean "{folded[close[0]]}"?' if close else ""


def shortened(text: str, names: Iterable[str]) -> list[str]:
    """The names whose words a text begins in their order: "2/3" and "r2 s3" are "Rack 2/Shelf 3".

    A number is a whole one; names with no other numbers than the text's go before the rest.
    """
    wanted = _pieces(text)
    if not wanted or re.search(r"[^\w\s/.,-]", text):
        return []
    known = {name: _pieces(name) for name in names}
    found = [name for name, pieces in known.items() if _begun(wanted, pieces)]
    numbers = [piece for piece in wanted if piece.isdigit()]
    alike = [n for n in found if [p for p in known[n] if p.isdigit()] == numbers]
    return alike or found


def _pieces(text: str) -> list[str]:
    return re.findall(r"\d+|[^\W\d_]+", fold(text))


def _begun(wanted: Sequence[str], pieces: Sequence[str]) -> bool:
    rest = iter(pieces)
    return all(
        any(piece == each if each.isdigit() else piece.startswith(each) for piece in rest)
        for each in wanted
    )


def plural(count: int, noun: str, many: str | None = None) -> str:
    """The count with its noun: "1 tray", "2 trays"."""
    return f"{count:,} {noun if count == 1 else many or noun + 's'}"
