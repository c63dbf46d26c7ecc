"""Lamp sets: what hangs over a shelf and what it draws."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from logbook.growing.measures import Units, length_words, number_words
from logbook.growing.quantities import LAMP_HEIGHT, LAMPS, WATTS
from logbook.growing.room.power import Draw, draw
from logbook.text import plural


@dataclass(frozen=True, slots=True)
class LampSet:
    """The lamps of a shelf, all alike. Watts and amperes are those of one lamp.

    `kind` and `light` (colour temperature or spectrum) are the grower's words; `height_mm` is from
    the shelf to the lamp. `lamps` 0 says that there is none.

    Raises:
        Refused: numbers that cannot belong to lamps on a shelf.
    """

    lamps: int
    watts: float = 0.0
    kind: str = ""
    light: str = ""
    amps: float | None = None
    volts: float | None = None
    height_mm: float | None = None
    bought: date | None = None

    def __post_init__(self) -> None:
        if self.lamps == 0:
            return
        LAMPS.checked(self.lamps)
        WATTS.checked(self.watts)
        if self.height_mm is not None:
            LAMP_HEIGHT.checked(self.height_mm)
        _ = self.draw

    @property
    def draw(self) -> Draw:
        """What all of them draw together; nothing when there is none."""
        if self.lamps == 0:
            return Draw(0.0)
        return draw(self.watts, self.lamps, volts=self.volts, amps=self.amps)

    def words(self, units: Units = "metric") -> str:
        """Say what hangs there: "4 × LED bar, 18 W each, 4000 K, 21 cm above the shelf"."""
        if self.lamps == 0:
            return "no lamps"
        what = f"{self.lamps} × {self.kind}" if self.kind else plural(self.lamps, "lamp")
        parts = [what, f"{number_words(self.watts)} W each"]
        if self.amps is not None:
            parts.append(f"{number_words(self.amps, 3)} A")
        if self.light:
            parts.append(self.light)
        if self.height_mm is not None:
            parts.append(f"{length_words(self.height_mm, units)} above the shelf")
        if self.bought is not None:
            parts.append(f"bought {self.bought.isoformat()}")
        return ", ".join(parts)


def circuit_amps(lamps: LampSet, volts: float) -> tuple[float, bool]:
    """The amperes of a shelf's lamps on a circuit, and whether they are from the label.

    Without amps on the label, watts ÷ volts: the least that they can draw, a poor power factor
    draws more.
    """
    found = lamps.draw.amps
    return (lamps.draw.watts / volts, False) if found is None else (found, True)
