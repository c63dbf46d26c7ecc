"""Where trays are put: the free slots that they find, and the rows that say so."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.actions.reading import Reading
from logbook.actions.writing import Act
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.room.places import Place, Spread, spread_over
from logbook.store.tables import TrayPlaceRow
from logbook.text import Refused

Spot = tuple[int | None, int | None]
"""(place id, slot)"""


def shelves_named(reading: Reading, wanted: str) -> list[Place]:
    """The shelves of a place, [] where none is named; raises Refused where it has no shelf."""
    if not wanted:
        return []
    named = reading.places.under(reading.places.find(wanted))
    if not named:
        raise Refused(f'"{wanted[:60]}" has no shelf; add one under places.', about="place")
    return named


def spread_for(
    reading: Reading, wanted: Sequence[Place], template: CropTemplate, count: int,
    also: Sequence[tuple[int, int]] = (),
) -> Spread:  # fmt: skip
    """Spread trays that are sown now over free slots: of the shelves wanted first, then along the walk.

    With none wanted, shelves whose light fits the first stage come first. `also` are slots (shelf
    id, slot) that are spoken for besides those that trays hold.
    """
    dark_first = template.stages[0].light == "dark"
    others = sorted(
        (shelf for shelf in reading.places.shelves if shelf not in wanted),
        key=lambda shelf: (shelf.lit if dark_first else not shelf.lit, shelf.walk),
    )
    if wanted:
        last = wanted[-1].walk
        others.sort(key=lambda shelf: (shelf.walk < last, shelf.walk))
    taken = {place: list(slots) for place, slots in reading.taken.items()}
    for place, slot in also:
        taken.setdefault(place, []).append(slot)
    return spread_over(count, wanted, others, taken)


def place_trays(act: Act, entry: int, trays: Sequence[int], spots: Sequence[Spot | None]) -> None:
    """Write where an entry put its trays: a spot each, or None for nowhere yet."""
    act.session.add_all(
        TrayPlaceRow(entry_id=entry, tray_id=tray, place_id=place, slot=slot)
        for tray, (place, slot) in zip(trays, (spot or (None, None) for spot in spots), strict=True)
    )
