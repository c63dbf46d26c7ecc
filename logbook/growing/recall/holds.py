"""Holds: what may not be sown, cut or sent out until it is released."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.growing.crops.seed_lots import plain


@dataclass(frozen=True, slots=True)
class Held:
    """The one thing that a hold is on: a seed lot, batch, tray, pack lot or place, the others None or ''."""

    seed_lot: str = ""
    batch_id: int | None = None
    tray_id: int | None = None
    lot_id: int | None = None
    place_id: int | None = None

    def same(self, other: "Held") -> bool:
        """Whether both are the same thing, in whatever spelling."""
        return plain(self.seed_lot) == plain(other.seed_lot) and (
            (self.batch_id, self.tray_id, self.lot_id, self.place_id)
            == (other.batch_id, other.tray_id, other.lot_id, other.place_id)
        )


@dataclass(frozen=True, slots=True)
class Hold:
    """A hold as its entry says; what it is on covers all that came of it."""

    keys: ClassVar = "hold=entry name why at by"

    entry: int
    act: int
    """A shelf and the trays that stood on it are put on hold in one act."""
    at: datetime
    by: str
    note: str
    name: str
    """What it is on: "seed lot DK 10", "tray 101", "Rack 1/Shelf 2"."""
    on: Held

    @property
    def why(self) -> str:
        """The reason."""
        return self.note

    @property
    def code(self) -> str:
        """Its name as a code, in quotes where it has spaces."""
        return code_of(self.name)

    @property
    def words(self) -> str:
        """What is on hold, and why."""
        return f"{self.name}: {self.why}"


@dataclass(frozen=True, slots=True)
class Holds:
    """The holds that stand, oldest first."""

    holds: tuple[Hold, ...] = ()

    def of_tray(
        self, tray: int, batch: int, lots: str, places: Collection[int] = ()
    ) -> Hold | None:
        """The oldest hold that covers a tray: by itself, its batch, its seed lots, or where it stands."""
        if not self.holds:
            return None
        seed = {plain(lot) for lot in lots.split(" + ")} - {""}
        return next(
            (
                hold
                for hold in self.holds
                if hold.on.tray_id == tray or hold.on.batch_id == batch
                or hold.on.place_id in places or plain(hold.on.seed_lot) in seed
            ),
            None,
        )  # fmt: skip

    def of_seed(self, lot: str) -> Hold | None:
        """The hold on a seed lot, in whatever spelling."""
        name = plain(lot)
        return next((hold for hold in self.holds if plain(hold.on.seed_lot) == name), None)

    def of_place(self, places: Iterable[int]) -> Hold | None:
        """The hold on one of these places: a shelf is held with its rack."""
        wanted = set(places)
        return next((hold for hold in self.holds if hold.on.place_id in wanted), None)

    def on(self, thing: Held) -> Hold | None:
        """The hold on just this thing."""
        return next((hold for hold in self.holds if hold.on.same(thing)), None)


def code_of(name: str) -> str:
    """A name as it is typed in a shell: in quotes where it has spaces."""
    return f'"{name}"' if " " in name else name
