"""Where the trays of a trial's sowing stand, and whether its shelves have room for them."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from logbook.actions.reading import Reading
from logbook.actions.trays.placing import shelves_named, spread_for
from logbook.growing.room.places import Place
from logbook.growing.trials.kept import Trial
from logbook.growing.trials.layout import TrialSpot
from logbook.text import listed, plural


@dataclass
class Allocation:
    """(shelf id, slot) of each tray along a layout, None for nowhere yet.

    `notices` say which trays are not where they belong, `lacks` which shelves lack room.
    """

    spots: list[tuple[int, int] | None]
    notices: list[str] = field(default_factory=list)
    lacks: list[str] = field(default_factory=list)


def stand(
    reading: Reading, trial: Trial, spots: Sequence[TrialSpot],
    numbers: Sequence[int], *, wanted: str = "", planned: bool = False,
) -> Allocation:  # fmt: skip
    """Settle where each tray stands: on its block's or arm's shelf where that suits it now.

    `numbers` are the trays' along the layout, `wanted` is a place for trays that belong to no shelf
    ('' for the next free slots); of what is `planned` only what can never fit is said. Raises
    Refused where there is no such place, or it has no shelf.
    """
    places = reading.places.by_id
    template = reading.version(trial.version_id)
    dark_first = template.stages[0].light == "dark" and any(
        place.kind == "shelf" and not place.lit and not place.retired for place in places.values()
    )
    found = Allocation([None] * len(spots))
    for shelf, group in _shelf_groups(trial, spots).items():
        place = places.get(shelf or 0)
        mine = [numbers[at] for at in group]
        later = place is not None and dark_first and place.lit
        if place is not None and (planned or later):
            share = template.trays_a_slot(len(template.stages) - 1, reading.about.stack)
            _check_room(found, reading, place, len(group), share, planned=planned)
            when = " when they come under lights" if later else ""
            found.notices.append(f"On {place.path}{when}, in this order: {listed_numbers(mine)}.")
        if planned:
            continue
        named = [place] if place is not None and not later else []
        if place is None and wanted.strip():
            named = reading.places.under(reading.places.find(wanted))
        path = wanted if place is None else "" if later else place.path
        held = [spot for spot in found.spots if spot is not None]
        got = spread_for(reading, shelves_named(reading, path), template, len(group), held)
        for at, spot in zip(group, got.spots, strict=True):
            found.spots[at] = spot
        _say_strays(found, named, places, list(zip(mine, got.spots, strict=True)))
    return found


def _check_room(
    found: Allocation, reading: Reading, shelf: Place, count: int, share: int, *, planned: bool
) -> None:
    """Say when a shelf has fewer slots than trays that come to it later; free ones, if soon."""
    trays = plural(count, "tray")
    if planned and shelf.slots * share < count:
        found.lacks.append(f"{shelf.path} has {plural(shelf.slots, 'slot')} for {trays}.")
    if not planned and (free := len(reading.free(shelf, share))) < count:
        found.lacks.append(
            f"{shelf.path} has {plural(free, 'free slot')} now for the {trays} that move there "
            "under lights."
        )


def _say_strays(
    found: Allocation, named: Sequence[Place], places: dict[int, Place],
    stood: Sequence[tuple[int, tuple[int, int] | None]],
) -> None:  # fmt: skip
    """Say which trays found no slot on the shelves named, or none at all, and where they go."""
    here = {place.id for place in named}
    astray = [
        (number, spot) for number, spot in stood if spot is None or (here and spot[0] not in here)
    ]
    if not astray:
        return
    paths = [places[spot[0]].path for _, spot in astray if spot is not None]
    where = listed(list(dict.fromkeys(paths)), most=3)
    room = len(stood) - len(astray)
    shelves = listed([place.path for place in named], most=3)
    has = "have" if len(named) > 1 else "has"
    free = f"{shelves} {has} room" if named else "There is room"
    rest = f"the others would go to {where}" if where else "the others would have no slot"
    found.lacks.append(f"{free} for {room} of {plural(len(stood), 'tray')}: {rest}.")
    numbers = listed_numbers([number for number, _ in astray])
    went = f"on {where}" if where else "in no slot yet"
    lack = f"No room on {shelves}" if named else "No room"
    found.notices.append(f"{lack} for {numbers}: they are {went}.")


def listed_numbers(numbers: Sequence[int]) -> str:
    """Write numbers in the order given, which numbers_words would sort."""
    return " ".join(str(number) for number in numbers)


def _shelf_groups(trial: Trial, spots: Sequence[TrialSpot]) -> dict[int | None, list[int]]:
    """For each shelf where trays belong (None: anywhere), their places in the layout."""
    arm_places = {arm.name: arm.place_id for arm in trial.arms}
    block_places = dict(trial.shelves)
    groups: dict[int | None, list[int]] = {}
    for at, (spot, block) in enumerate(zip(spots, blocks_of(trial, len(spots)), strict=True)):
        shelf = arm_places[spot.arm] if block is None else block_places[block]
        groups.setdefault(shelf, []).append(at)
    return groups


def blocks_of(trial: Trial, count: int) -> list[int | None]:
    """The block of each place in a layout of `count` trays."""
    if not trial.shelves:
        return [None] * count
    return [trial.shelves[at * len(trial.shelves) // count][0] for at in range(count)]
