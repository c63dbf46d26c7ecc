"""Which slots of the racks are taken while the months go by."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.growing.places import Place, find_place, free_slots, spread_over

Spot = tuple[int, int]


class Shelves:
    """The shelves of the room with the slots that trays hold."""

    def __init__(self, places: Sequence[Place]) -> None:
        self.places = tuple(places)
        self.paths = {place.id: place.path for place in places}
        self._shelves = [place for place in places if place.kind == "shelf"]
        self._taken: dict[int, list[int | None]] = {}

    def named(self, path: str) -> Place:
        """Give a place by its path."""
        return find_place(path, self.places)

    def take(self, count: int, rack: str) -> tuple[Spot, ...]:
        """Take slots on a rack, on one shelf where one has room; then on the racks most like it."""
        lit = self.named(f"{rack}/Shelf 1").lit
        order = sorted(
            self._shelves,
            key=lambda shelf: (
                not shelf.path.startswith(rack),
                shelf.lit is not lit,
                len(free_slots(shelf, self._taken)) < count,
                shelf.walk,
            ),
        )
        spots = tuple(spot for spot in spread_over(count, order, (), self._taken).spots if spot)
        if len(spots) < count:
            raise ValueError(f"the room has no {count} free slots")
        for shelf, slot in spots:
            self._taken.setdefault(shelf, []).append(slot)
        return spots

    def leave(self, spots: Sequence[Spot]) -> None:
        """Give slots back."""
        for shelf, slot in spots:
            self._taken[shelf].remove(slot)
