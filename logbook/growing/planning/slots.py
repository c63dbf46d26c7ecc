"""Which shelves have room for trays to come: slots by day, given out greedily and then exchanged.

A stay takes slots of one shelf or several from its first day until, not including, the day on which
its trays go on: what leaves a shelf makes room on that day.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from logbook.growing.bands import Band

WRONG_LIGHT = 0.6
"""What a slot is worth whose daily light is known and is not what the crop wants."""
LIT_FOR_DARK = 0.8
"""What a lit slot is worth to trays that need no light: those under a lid or weight may stand there."""
MOST_ROUNDS = 8
"""So often at most all slots are given out again."""
MOST_LOOKS = 30_000
"""So many stays at most are looked at to exchange slots: a room of hundreds that is far too full stays as it is."""
TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Shelf:
    """A shelf with its slots; `daily` is its light in mol m⁻² d⁻¹, None where it was not measured."""

    id: int
    slots: int
    lit: bool
    daily: float | None = None


@dataclass(frozen=True, slots=True)
class Stay:
    """Slots that trays need from one day until another (days from today), in light or in the dark."""

    first: int
    until: int
    slots: int
    lit: bool
    light: Band | None = None
    fixed: int | None = None
    """The shelf (id) on which they already are."""

    @property
    def days(self) -> range:
        """The days on which it takes slots."""
        return range(self.first, self.until)

    def worth(self, shelf: Shelf) -> float:
        """What a day on one slot of a shelf is worth to it, from 0 to 1; 0 where it can't be there."""
        if not self.lit:
            return LIT_FOR_DARK if shelf.lit else 1.0
        if not shelf.lit:
            return 0.0
        known = self.light is not None and shelf.daily is not None
        wrong = known and self.light.side(shelf.daily)  # type: ignore[union-attr,arg-type]
        return WRONG_LIGHT if wrong else 1.0


Given = dict[int, int]
"""Slots that a stay was given, by shelf id."""


@dataclass
class _Room:
    shelves: Mapping[int, Shelf]
    stays: Sequence[Stay]
    looks: int = MOST_LOOKS
    free: dict[int, list[int]] = field(init=False)
    given: list[Given] = field(init=False)
    on: dict[int, set[int]] = field(init=False)
    """The stays on a shelf."""

    def __post_init__(self) -> None:
        days = max((each.until for each in self.stays), default=0)
        self.free = {each.id: [each.slots] * days for each in self.shelves.values()}
        self.given = [{} for _ in self.stays]
        self.on = defaultdict(set)
        for place, each in enumerate(self.stays):
            if each.fixed is not None and each.fixed in self.shelves:
                self.give(place, each.fixed, each.slots)

    def give(self, stay: int, shelf: int, slots: int) -> None:
        """Give slots of a shelf to a stay, or take them from it."""
        given, free = self.given[stay], self.free[shelf]
        given[shelf] = given.get(shelf, 0) + slots
        if given[shelf]:
            self.on[shelf].add(stay)
        else:
            del given[shelf]
            self.on[shelf].discard(stay)
        for day in self.stays[stay].days:
            free[day] -= slots

    def room_on(self, stay: int, shelf: int) -> int:
        """How many slots of a shelf are free on all days of a stay."""
        each = self.stays[stay]
        return min(self.free[shelf][each.first : each.until], default=0)

    def lacks(self, stay: int) -> int:
        """How many slots a stay lacks."""
        return self.stays[stay].slots - sum(self.given[stay].values())

    def wishes(self, stay: int) -> list[tuple[float, int]]:
        """The shelves on which a stay can be, (worth, id), the best first."""
        each = self.stays[stay]
        found = ((each.worth(shelf), shelf.id) for shelf in self.shelves.values())
        return sorted((one for one in found if one[0]), key=lambda one: -one[0])

    def fill(self, stay: int) -> None:
        """Give a stay what is free, on the best shelves first."""
        for _, shelf in self.wishes(stay):
            if not (lacks := self.lacks(stay)):
                return
            if (room := min(lacks, self.room_on(stay, shelf))) > 0:
                self.give(stay, shelf, room)


def give_out(shelves: Iterable[Shelf], stays: Sequence[Stay]) -> list[Given]:
    """The slots of each stay, by shelf: greedily, then by exchanges, where it is tight in several orders.

    What is made as large as can be is the sum of slots, days and what each day there is worth.
    """
    shelves = list(shelves)
    best: list[Given] = []
    looks = MOST_LOOKS
    for order in _ORDERS:
        room = _Room({each.id: each for each in shelves}, stays, looks)
        loose = [place for place, each in enumerate(stays) if each.fixed is None and each.days]
        for place in sorted(loose, key=lambda at: order(stays[at])):
            room.fill(place)
        _exchange(room, loose)
        if not best or worth_of(shelves, stays, room.given) > worth_of(shelves, stays, best):
            best = room.given
        looks = room.looks
        if looks <= 0 or not any(room.lacks(place) for place in loose):
            break
    return best


_ORDERS: tuple[Callable[[Stay], tuple[float, ...]], ...] = (
    lambda stay: (not stay.lit, stay.first, stay.until),
    lambda stay: (not stay.lit, -len(stay.days)),
    lambda stay: (stay.until, not stay.lit),
    lambda stay: (stay.lit, len(stay.days)),
)
"""In which order stays are given slots: the first where there is room for all, else the best of them."""


def _exchange(room: _Room, loose: Sequence[int]) -> None:
    """Exchange as long as that gains something: single slots, and the days of each slot anew."""
    for _ in range(MOST_ROUNDS):
        gained = sum(_moved_up(room, place, set(loose)) for place in loose)
        if any(room.lacks(place) for place in loose):
            gained += sum(
                _row_again(room, shelf, row, loose)
                for shelf in room.shelves
                for row in _rows(room, shelf, set(loose))
            )
            for place in loose:
                room.fill(place)
        if gained <= TINY or room.looks <= 0:
            return


def _moved_up(room: _Room, place: int, movable: set[int]) -> float:
    """Move a stay's slots, and those it lacks, to better shelves; returns what is gained."""
    stay, gained = room.stays[place], 0.0
    wishes = room.wishes(place)
    for shelf in [*room.given[place], None]:
        worth = 0.0 if shelf is None else stay.worth(room.shelves[shelf])
        for better, to in wishes:
            if better <= worth:
                break
            while (
                room.looks > 0
                and (room.lacks(place) if shelf is None else room.given[place].get(shelf, 0)) > 0
            ):
                gain = _squeezed_in(
                    room, place, shelf, to, (better - worth) * len(stay.days), movable
                )
                if not gain:
                    break
                gained += gain
    return gained


def _squeezed_in(
    room: _Room, place: int, shelf: int | None, to: int, gain: float, movable: set[int]
) -> float:
    """Put one slot of a stay onto another shelf, where others move on or out; returns what is gained.

    Nothing is done where that is nothing.
    """
    done: list[tuple[int, int, int]] = []

    def give(stay: int, where: int, slots: int) -> None:
        room.give(stay, where, slots)
        done.append((stay, where, slots))

    if shelf is not None:
        give(place, shelf, -1)
    while (
        full := next((day for day in room.stays[place].days if room.free[to][day] < 1), None)
    ) is not None:
        ways = _ways_out(room, to, full, place, movable)
        loss, other, onto = min(ways, default=(gain + 1, -1, None), key=lambda way: way[0])
        gain -= loss
        if gain <= TINY:
            for stay, where, slots in reversed(done):
                room.give(stay, where, -slots)
            return 0.0
        give(other, to, -1)
        if onto is not None:
            give(other, onto, 1)
    give(place, to, 1)
    return gain


def _ways_out(
    room: _Room, shelf: int, day: int, place: int, movable: set[int]
) -> Iterator[tuple[float, int, int | None]]:
    """What it costs to take a slot of a shelf from others on a day: (loss, who, onto which shelf or out)."""
    room.looks -= len(room.on[shelf])
    for other in room.on[shelf] & movable:
        stay = room.stays[other]
        if other == place or day not in stay.days:
            continue
        worth, length = stay.worth(room.shelves[shelf]), len(stay.days)
        yield worth * length, other, None
        for better, to in room.wishes(other):
            if to != shelf and room.room_on(other, to) > 0:
                yield (worth - better) * length, other, to
                break


def _rows(room: _Room, shelf: int, loose: set[int]) -> list[list[int]]:
    """The stays on a shelf that may move, slot by slot, each row one after another; an empty one last."""
    units = [place for place in room.on[shelf] & loose for _ in range(room.given[place][shelf])]
    rows: list[list[int]] = []
    for place in sorted(units, key=lambda at: room.stays[at].first):
        first = room.stays[place].first
        free = (row for row in rows if room.stays[row[-1]].until <= first)
        row = next(free, None)
        if row is None:
            rows.append([place])
        else:
            row.append(place)
    return [*rows, []]


def _row_again(room: _Room, shelf: int, row: Sequence[int], loose: Sequence[int]) -> float:
    """Give a slot's days to those of whom they are worth most; returns what is gained.

    The stays of a row one after another are the best by weighted interval scheduling (Kleinberg and
    Tardos 2006, Algorithm Design, 6.1).
    """
    of = room.shelves[shelf]
    room.looks -= len(loose) // 4
    if room.looks <= 0 or any(room.given[place].get(shelf, 0) < row.count(place) for place in row):
        return 0.0
    for place in row:
        room.give(place, shelf, -1)
    free = room.free[shelf]
    takers = [
        (each.until, each.first, worth * (each.until - each.first), place)
        for place in loose
        if room.lacks(place)
        and (worth := (each := room.stays[place]).worth(of))
        and min(free[each.first : each.until]) > 0
    ]
    takers.sort()
    ends = [until for until, _, _, _ in takers]
    best: list[tuple[float, int]] = [(0.0, 0)]
    for at, (_, first, value, _) in enumerate(takers, 1):
        before = bisect_right(ends, first, 0, at - 1)
        best.append(max((best[-1][0], -1), (best[before][0] + value, before)))
    at = len(takers)
    while at:
        before = best[at][1]
        if before >= 0 and best[at][0] > best[at - 1][0]:
            room.give(takers[at - 1][3], shelf, 1)
            at = before
        else:
            at -= 1
    return best[-1][0] - sum(
        room.stays[each].worth(of) * len(room.stays[each].days) for each in row
    )


def worth_of(shelves: Iterable[Shelf], stays: Sequence[Stay], given: Sequence[Given]) -> float:
    """What slots that were given out are worth in all."""
    known = {each.id: each for each in shelves}
    return sum(
        slots * len(stay.days) * stay.worth(known[shelf])
        for stay, mine in zip(stays, given, strict=True)
        for shelf, slots in mine.items()
    )


@dataclass(frozen=True, slots=True)
class SlotUse:
    """The slots that are needed on a day (days from today), and those that there are."""

    day: int
    lit: int
    dark: int
    """By trays that need no light; they may be on lit shelves too."""
    lit_slots: int
    slots: int

    @property
    def short_lit(self) -> int:
        """How many lit slots are lacking."""
        return max(0, self.lit - self.lit_slots)

    @property
    def short_dark(self) -> int:
        """How many slots are lacking besides."""
        return max(0, self.lit + self.dark - self.slots - self.short_lit)


def use_by_day(shelves: Sequence[Shelf], stays: Iterable[Stay], days: int) -> list[SlotUse]:
    """The use of slots on each of so many days."""
    need = {True: [0] * days, False: [0] * days}
    for each in stays:
        for day in range(each.first, min(each.until, days)):
            need[each.lit][day] += each.slots
    lit_slots = sum(each.slots for each in shelves if each.lit)
    slots = sum(each.slots for each in shelves)
    return [
        SlotUse(day, need[True][day], need[False][day], lit_slots, slots) for day in range(days)
    ]
