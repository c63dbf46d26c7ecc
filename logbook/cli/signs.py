"""What the plain commands print where the terminal cannot show our signs."""

import io
import sys
from collections.abc import Mapping

from logbook.settings import read_settings
from logbook.text import Refused
from logbook.ui.line.signs import TABLE, encodes
from logbook.ui.line.terminal import ascii_locale, plain_signs

LONGER = {
    "…": "...", "±": "+-", "°": "", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3",
    "⅛": " 1/8", "≥": ">=", "≤": "<=", "≈": "~", "‘": "'", "’": "'", "“": '"', "”": '"', "„": '"',
    "«": '"', "»": '"', "‹": "'", "›": "'", "″": '"', "′": "'", "€": "EUR ", "£": "GBP ",
    "\u00a0": " ", "\u202f": " ", "•": "*",
}  # fmt: skip
"""What stands for more signs where a line may become longer, as it may outside the screens."""
STANDS_FOR = TABLE | {ord(sign): plain for sign, plain in LONGER.items()}
OURS = TABLE | {ord("…"): "..."}
BEYOND_ASCII = {ord(sign): LONGER[sign] for sign in "°±"}


class PlainStream(io.TextIOWrapper):
    """Writes what an encoding lacks in ASCII, else "?", with `ours` each of our signs so too."""

    def __init__(
        self, stream: io.TextIOWrapper, encoding: str, *, ours: bool, latin: bool = True
    ) -> None:
        self.fits, self.ours, self.latin = encoding, ours, latin
        ascii_alone = not encodes(encoding, "é")
        super().__init__(
            stream.buffer,
            encoding="utf-8" if ascii_alone else encoding,  # click writes past a stream of ASCII
            line_buffering=stream.isatty(),
        )

    def write(self, text: str) -> int:
        """Write the text; returns its length."""
        super().write(plain_line(text, self.fits, ours=self.ours, latin=self.latin))
        return len(text)


def plain_line(text: str, encoding: str, *, ours: bool, latin: bool = True) -> str:
    """A text that an encoding holds; with `ours` our signs are ASCII though it has them.

    Of these ° and ± stay unless the terminal promises not even what is `latin`.
    """
    if text.isascii():
        return text
    if ours:
        text = text.translate(OURS if latin else OURS | BEYOND_ASCII)
    return "".join(
        letter if encodes(encoding, letter) else _stands_for(letter, encoding) for letter in text
    )


def _stands_for(letter: str, encoding: str) -> str:
    plain = STANDS_FOR.get(ord(letter), "?")
    return plain if encodes(encoding, plain) else "?"


def fit_streams(environ: Mapping[str, str]) -> None:
    """Have output and errors say in plain signs what their encoding lacks, as the screens would."""
    latin = not ascii_locale(environ)
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if not isinstance(stream, io.TextIOWrapper):
            continue
        ours = stream.isatty() and plain_signs(environ, _wanted())
        if ours or not encodes(stream.encoding, "–→²µ"):
            stream.flush()
            setattr(sys, name, PlainStream(stream, stream.encoding, ours=ours, latin=latin))


def _wanted() -> str:
    try:
        return read_settings().signs
    except Refused:
        return "auto"


def fitted() -> bool:
    """Whether standard output may print other letters than it is given."""
    return isinstance(sys.stdout, PlainStream)
