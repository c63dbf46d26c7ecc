"""Trays that need light on a shelf whose lamps are off."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.keys import TrayNumber
from logbook.growing.numbers import numbers_words
from logbook.growing.room.places import Place


@dataclass(frozen=True, slots=True)
class InTheDark:
    """The trays of a shelf that are in a stage of light, and why it has none."""

    keys: ClassVar = "place trays=numbers why words"

    place: str
    """Rack and shelf."""
    numbers: tuple[TrayNumber, ...]
    why: str
    """As it follows the shelf's name: "has no lamp hours"."""

    @property
    def words(self) -> str:
        """Say which trays lack what: "In the dark, for Rack 1/Cellar has no lamp hours: 101"."""
        return f"In the dark, as {self.place} {self.why}: {numbers_words(self.numbers)}"


def unlit_shelves(shelves: Iterable[Place], bare: Collection[int]) -> dict[int, str]:
    """Why shelves have no light, by place id; `bare` are those whose lamps were taken off.

    A room in which no lamp is known is lit by its windows: there is nothing to say.
    """
    shelves = list(shelves)
    if not bare and not any(shelf.lit for shelf in shelves):
        return {}
    return {
        shelf.id: "has no lamps" if shelf.id in bare else "has no lamp hours"
        for shelf in shelves
        if shelf.id in bare or not shelf.lit
    }
