"""Places: rooms, racks, shelves and their slots, in walking order."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from logbook.growing.keys import WallTime
from logbook.growing.wall_hours import wall_words
from logbook.text import Refused, clean, clean_name, fold, listed, nearest, shortened

PlaceKind = Literal["room", "rack", "shelf"]


@dataclass(frozen=True, slots=True)
class Place:
    """A room, rack or shelf.

    `path` names it from the rack down ("Rack 1/Shelf 2"), in other rooms than the first with the room
    before it ("Barn/Rack 1/Shelf 2"); `walk` sorts places in the order in
    which one walks past: (position, id) of its room, its rack, itself; lamp hours are minutes after midnight by the wall, None for no lamp.
    """

    id: int
    kind: PlaceKind
    name: str
    path: str
    walk: tuple[int, ...]
    parent: int | None = None
    slots: int = 0
    lamp_on: WallTime | None = None
    lamp_off: WallTime | None = None
    retired: bool = False

    @property
    def top(self) -> int:
        """The id of the room that it is in; of what stands in none, that of the rack or shelf."""
        return self.walk[1]

    @property
    def lit(self) -> bool:
        """Whether the shelf has lamp hours."""
        return self.lamp_on is not None and self.lamp_off is not None

    @property
    def hours_words(self) -> str:
        """Say the lamp hours: "lit 06–22", or "dark"."""
        if self.lamp_on is None or self.lamp_off is None:
            return "dark"
        ends = (wall_words(end).removesuffix(":00") for end in (self.lamp_on, self.lamp_off))
        return f"lit {'–'.join(ends)}"


class Places(tuple[Place, ...]):  # noqa: SLOT001 - it keeps what it found by id
    """All places of a book in walking order, retired ones too; found by id as well."""

    @cached_property
    def by_id(self) -> dict[int, Place]:
        """The places by their ids."""
        return {place.id: place for place in self}

    def get(self, place: int | None) -> Place | None:
        """The place of an id; None for None."""
        return None if place is None else self.by_id.get(place)

    def path(self, place: int | None) -> str:
        """The path of a place's id, '' for none."""
        found = self.get(place)
        return found.path if found else ""

    @property
    def room(self) -> Place | None:
        """The first room in walking order."""
        return next((place for place in self if place.kind == "room"), None)

    @property
    def first_room(self) -> Place | None:
        """The room that the book began with: its places are named without it."""
        return min(
            (place for place in self if place.kind == "room"), key=lambda one: one.id, default=None
        )

    def find(self, text: str) -> Place:
        """The standing place of a path, or of a name that only one has, "2/3" too; or Refused."""
        text = clean(text, lines=False)
        wanted = "/".join(fold(part) for part in text.split("/")).strip("/")
        standing = [place for place in self if not place.retired]
        exact = [place for place in standing if fold(place.path) == wanted]
        named = [place for place in standing if fold(place.path).endswith(f"/{wanted}")]
        if not named:
            meant = shortened(text, [place.path for place in standing if place.kind != "room"])
            named = [place for place in standing if place.path in meant]
        if exact or len(named) == 1:
            return (exact or named)[0]
        if named:
            raise Refused(
                f'"{text[:40]}" matches {len(named)} places; type which one: '
                f"{listed([place.path for place in named], joint='or')}."
            )
        paths = [place.path for place in standing if place.kind != "room"]
        raise Refused(
            f'There is no place "{text[:60]}".{nearest(text, paths)} The book has {listed(paths)}.'
        )

    def under(self, place: Place) -> list[Place]:
        """The standing shelves of a place (itself, when it is a shelf) in walking order."""
        if place.kind == "shelf":
            return [place]
        return [shelf for shelf in self.shelves if place.id in shelf.walk[1::2]]

    @property
    def shelves(self) -> list[Place]:
        """The standing shelves."""
        return [place for place in self if place.kind == "shelf" and not place.retired]


def place_name(text: str) -> str:
    """Clean a place's name; a / parts the places of a path, so it becomes a dash within a name."""
    return clean_name(text, "name").replace("/", "-")


@dataclass(frozen=True, slots=True)
class Held:
    """The slot of a tray, None where it stands in none; `shared_by` trays like it take one slot."""

    slot: int | None
    shared_by: int = 1


Taken = Mapping[int, Iterable[Held]]
"""What trays hold, by the id of their shelf."""


def free_slots(shelf: Place, taken: Taken, shared_by: int = 1) -> list[int]:
    """The slots (from 1) of a shelf that are free for trays of which so many share one.

    A slot stands there once for each such tray that it takes, beside others like it or alone.
    """
    there, beside = _held(taken.get(shelf.id, ()))
    empty = [slot for slot in range(1, shelf.slots + 1) if slot not in there]
    whole = empty[: max(0, len(empty) - beside)]
    left = dict.fromkeys(whole, shared_by)
    for slot, shares in there.items():
        if slot <= shelf.slots and set(shares) == {shared_by}:
            left[slot] = shared_by - len(shares)
    return [slot for slot in sorted(left) for _ in range(left[slot])]


def slots_used(held: Iterable[Held]) -> int:
    """How many slots trays take: those that share one, one together."""
    there, beside = _held(held)
    return len(there) + beside


def _held(held: Iterable[Held]) -> tuple[dict[int, list[int]], int]:
    """What each slot holds, and how many slots the trays take besides that have none or no room in theirs."""
    there: dict[int, list[int]] = {}
    loose: Counter[int] = Counter()
    for each in held:
        if each.slot is None:
            loose[each.shared_by] += 1
        else:
            there.setdefault(each.slot, []).append(each.shared_by)
    crowded = sum(max(0, len(shares) - min(shares)) for shares in there.values())
    return there, crowded + sum(-(-count // share) for share, count in loose.items())


def lack_words(shelves: list[str], room: int, count: int) -> str:
    """Say that shelves have no room for so many trays, or for how many."""
    names, several = listed(shelves, 3), len(shelves) > 1
    if not room:
        return f"{names} {'are' if several else 'is'} full."
    return f"{names} {'have' if several else 'has'} room for only {room} of the {count} trays."


@dataclass(frozen=True, slots=True)
class Spread:
    """Where trays go: (shelf id, slot) or None for each; `notices` say which shelf was full."""

    spots: tuple[tuple[int, int] | None, ...]
    notices: tuple[str, ...]


def spread_over(
    count: int, wanted: Sequence[Place], others: Sequence[Place], taken: Taken, shared_by: int = 1
) -> Spread:  # fmt: skip
    """Spread trays, `shared_by` of them a slot, over the wanted shelves, then the others."""
    spots: list[tuple[int, int] | None] = []
    notices: list[str] = []
    for shelf in wanted:
        spots += [
            (shelf.id, slot) for slot in free_slots(shelf, taken, shared_by)[: count - len(spots)]
        ]
    if wanted and len(spots) < count:
        notices.append(lack_words([shelf.path for shelf in wanted], len(spots), count))
    for shelf in others:
        got = free_slots(shelf, taken, shared_by)[: count - len(spots)]
        spots += [(shelf.id, slot) for slot in got]
        if got and wanted:
            notices.append(f"{len(got)} of them will go on {shelf.path}.")
    left = count - len(spots)
    if left:
        notices.append(
            f"Every shelf is full: {left} {'tray has' if left == 1 else 'trays have'} no slot yet; "
            "move them when there is room."
        )
        spots += [None] * left
    return Spread(tuple(spots), tuple(notices))
