"""What a question or a deed is about: the trays and the place that the cursor is on."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.growing.numbers import numbers_words


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the cursor is on: trays by number, a chore with its words or '', the place's path.

    `to` is where a move is likely to go.
    """

    numbers: tuple[int, ...]
    chore: str = ""
    words: str = ""
    place: str = ""
    crop: str = ""
    sign: str = ""
    to: str = ""

    @property
    def label(self) -> str:
        return f"{numbers_words(self.numbers)} {self.crop}".strip() or self.place
