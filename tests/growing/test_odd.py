"""A reading that is asked about is held against others in a number that is said, not worked out."""

from __future__ import annotations

from logbook.growing.quantities import AIR, PPFD
from logbook.growing.room.odd import odd


def test_what_is_usual_is_rounded_in_the_room_s_units() -> None:
    assert odd(PPFD, 0, [553 / 3]).endswith("The last readings here are about 184.3 µmol/m²/s.")
    assert odd(AIR, 45, [21.3, 21.65], units="us").endswith("are about 70.66 °F.")
    assert not odd(PPFD, 60, [553 / 3])
