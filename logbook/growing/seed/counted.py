"""What a count of seedlings says of a seed lot: its germination, how sure, below what."""

import math
from dataclasses import dataclass

from logbook.growing.bands import Band
from logbook.growing.crops.germination import germination_words, least_germination
from logbook.growing.measures import number_words
from logbook.growing.quantities import SEEDS_SOWN, SEEDS_UP
from logbook.text import Refused

Z95 = 1.959963984540054
"""The normal distribution's 97.5 % point, of an interval that is right 19 times in 20."""


def wilson(up: int, sown: int, z: float = Z95) -> tuple[float, float]:
    """Wilson's score interval of a share, 0 to 1 (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927)."""
    share, more = up / sown, z * z / sown
    centre = (share + more / 2) / (1 + more)
    half = z / (1 + more) * math.sqrt(share * (1 - share) / sown + more / (4 * sown))
    return max(0.0, centre - half) if up else 0.0, min(1.0, centre + half) if up < sown else 1.0


@dataclass(frozen=True, slots=True)
class Counted:
    """Seeds of a lot put to germinate, and how many came up."""

    sown: int
    up: int

    @classmethod
    def checked(cls, sown: int, up: int) -> "Counted":
        """The count; Refused for one that cannot be."""
        SEEDS_SOWN.checked(sown, "sown")
        SEEDS_UP.checked(up, "up")
        if up > sown:
            raise Refused(f"{up} came up of {sown} sown? Put the seeds sown first.", about="up")
        return cls(sown, up)

    @property
    def germination_percent(self) -> float:
        """What came up, in percent."""
        return 100 * self.up / self.sown

    @property
    def low_percent(self) -> float:
        """The low end of Wilson's interval, right 19 times in 20."""
        return 100 * wilson(self.up, self.sown)[0]

    @property
    def high_percent(self) -> float:
        """The high end."""
        return 100 * wilson(self.up, self.sown)[1]

    @property
    def words(self) -> str:
        """Say it: "46 of 50 up: 92 %, likely 81 to 97 %"."""
        share, low, high = (
            number_words(each, 0)
            for each in (self.germination_percent, self.low_percent, self.high_percent)
        )
        return f"{self.up} of {self.sown} up: {share} %, likely {low} to {high} %"


def below_words(crop: str, counted: Counted, label_percent: float | None = None) -> list[str]:
    """Say when a count is below the label or the legal standard, and how sure that is."""
    found, percent = [], counted.germination_percent
    if label_percent is not None and percent < label_percent:
        label = f"the {number_words(label_percent)} % on the label"
        said = f"{Band(low=label_percent).told(percent, 0)} % is below {label}"
        found.append(
            f"{said}."
            if counted.high_percent < label_percent
            else f"{said}, but so few seeds can't tell; count more."
        )
    if legal := germination_words(crop, percent):
        found.append(legal)
        if counted.high_percent >= (least_germination(crop) or 0):
            found.append("By chance this count may be too low; count more seeds to be sure.")
    return found
