"""A reading that is asked about is held against others in a number that is said, not worked out."""

from __future__ import annotations

import pytest

from logbook.growing.quantities import AIR, EC, PH, PPFD, WATER, Quantity
from logbook.growing.room.odd import odd


def test_what_is_usual_is_rounded_in_the_room_s_units() -> None:
    assert odd(PPFD, 0, [553 / 3]).endswith("The last readings here are about 184.3 µmol/m²/s.")
    assert odd(AIR, 45, [21.3, 21.65], units="us").endswith("are about 70.66 °F.")
    assert not odd(PPFD, 60, [553 / 3])


@pytest.mark.parametrize(
    ("quantity", "fine", "asked", "said"),
    [(EC, 4, 12, "up to 4 mS/cm"), (WATER, 1_500, 3_000, "up to 1,500 ml"), (PH, 9, 9.1, "4 to 9")],
)
def test_with_nothing_to_be_held_against_what_is_common_is(
    quantity: Quantity, fine: float, asked: float, said: str
) -> None:
    """Common practice, no source."""
    assert not odd(quantity, fine, [])
    assert said in odd(quantity, asked, [])
    assert not odd(quantity, asked, [asked])
