"""Signs in ASCII, for terminals that cannot show ours. Letters of people's text stay."""

from functools import lru_cache

from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from logbook.ui.line.signs import LATIN, TABLE, encodes


class PlainSigns(LineFilter):
    """Draws our signs in ASCII, and ? for what the terminal's encoding has no code for.

    ° and ± stay where the encoding of `signs` has them.
    """

    def __init__(self, encoding: str = "utf-8", signs: str = "") -> None:
        super().__init__()
        self.encoding, self.signs = encoding, signs or encoding

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """A line as it goes to the terminal; styles stay."""
        return [
            segment
            if segment.text.isascii()
            else Segment(
                plain_text(segment.text, self.encoding, self.signs), segment.style, segment.control
            )
            for segment in segments
        ]


@lru_cache(maxsize=1024)
def plain_text(text: str, encoding: str = "utf-8", signs: str = "") -> str:
    """A text with our signs in ASCII, as wide as it was."""
    for sign, plain in LATIN.items():
        if sign in text and not encodes(signs or encoding, sign):
            text = text.replace(sign, plain)
    return "".join(
        letter if letter.isascii() or encodes(encoding, letter) else "?" * cell_len(letter)
        for letter in text.translate(TABLE)
    )
