"""Where trays are put: the free slots that they find, and the rows that say so."""

from collections.abc import Iterable, Sequence

from logbook.actions.reading import Reading
from logbook.actions.trays.done import numbers_of
from logbook.actions.writing import Act
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.numbers import numbers_words
from logbook.growing.room.places import Held, Place, Spread, spread_over
from logbook.growing.trays.tray_now import TrayNow
from logbook.text import Refused
from logbook.ways import Way

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
    wanted = open_shelves(reading, wanted)
    dark_first = template.stages[0].light == "dark"
    others = sorted(
        (
            shelf
            for shelf in reading.places.shelves
            if shelf not in wanted and not reading.holds.of_place(shelf.walk[1::2])
        ),
        key=lambda shelf: (shelf.lit if dark_first else not shelf.lit, shelf.walk),
    )
    if wanted:
        last = wanted[-1].walk
        others.sort(key=lambda shelf: (shelf.walk < last, shelf.walk))
    shared_by = template.trays_a_slot(0, reading.about.stack)
    taken = {place: list(slots) for place, slots in reading.taken.items()}
    for place, slot in also:
        taken.setdefault(place, []).append(Held(slot, shared_by))
    return spread_over(count, wanted, others, taken, shared_by)


def open_shelves(reading: Reading, shelves: Sequence[Place]) -> list[Place]:
    """Those of shelves that are not on hold; raises Refused where all of them are."""
    held = {each.id: reading.holds.of_place(each.walk[1::2]) for each in shelves}
    found = [each for each in shelves if held[each.id] is None]
    if shelves and not found and (hold := held[shelves[0].id]) is not None:
        raise Refused(
            f"{shelves[0].path} is on hold ({hold.why}); name another shelf, or release it: "
            f"{Way.RELEASE.of(hold.code)}.",
            "place",
        )
    return found


def place_trays(act: Act, entry: int, trays: Sequence[int], spots: Sequence[Spot | None]) -> None:
    """Write where an entry put its trays: a spot each, or None for nowhere yet."""
    stand = zip(trays, (spot or (None, None) for spot in spots), strict=True)
    rows = ({"tray_id": tray, "place_id": place, "slot": slot} for tray, (place, slot) in stand)
    act.put("tray_place", entry, rows)


def placed_words(numbers: Iterable[int], places: Iterable[str]) -> list[str]:
    """Say which trays are on which place: "101–104 on Rack 1/Shelf 1"; nothing of those on none."""
    on: dict[str, list[int]] = {}
    for number, place in zip(numbers, places, strict=True):
        on.setdefault(place, []).append(number)
    return [f"{numbers_words(those)} on {place}" for place, those in on.items() if place]


def crowded(reading: Reading, trays: Sequence[TrayNow]) -> list[str]:
    """Say which of the trays are in a slot that has no room for all in it, as after a stack."""
    ids, stack = {known.id for known in trays}, reading.about.stack
    there: dict[tuple[int, int], list[TrayNow]] = {}
    for known in reading.live:
        state = known.state
        if state.status == "growing" and state.place is not None and state.slot is not None:
            there.setdefault((state.place, state.slot), []).append(known)
    return [
        f"Slot {slot} of {reading.places.path(place)} has no room for all of its trays now: "
        f"{numbers_words(numbers_of(mine))}. {Way.MOVE} moves some to other slots."
        for (place, slot), mine in there.items()
        if len(mine) > min(each.trays_a_slot(stack) for each in mine)
        and ids & {each.id for each in mine}
    ]
