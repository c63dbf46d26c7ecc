"""What the racks show: racks, shelves, trays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, ClassVar

from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.room.places import Place
from logbook.growing.trays.chores import Chore
from logbook.growing.trays.in_the_dark import InTheDark


@dataclass(frozen=True, slots=True)
class RackTray:
    """A tray on its shelf."""

    keys: ClassVar = """
        tray=number slot crop day_number due late mould_seen=mould ready mark=colour ready_sign=sign
        harvest regrowth_day
    """

    number: TrayNumber
    crop: str
    day_number: DayNumber
    slot: int | None
    due: tuple[Chore, ...]
    """Chores that are due now, a cut that is best later today too."""
    ready: Annotated[str, ("soon", "ready", "late")]
    """How it stands to its cut window."""
    late: bool
    """Whether any chore of it is late."""
    colour: str
    sign: str = ""
    """The sign that says that it is ready."""
    mould: bool = False
    """Whether mould stands on it."""
    harvest: int = 1
    """Which harvest its next cut is of: 1 is the first, the others are regrowth."""
    regrowth_day: DayNumber | None = None
    """As the day number, from the cut after which it grows again; null where it does not."""


@dataclass(frozen=True, slots=True)
class RackShelf:
    """A shelf and what stands on it."""

    keys: ClassVar = "place=place.path slots=place.slots slots_used trays in_the_dark"

    place: Place
    trays: tuple[RackTray, ...]
    slots_used: int = 0
    """Half trays and those stacked under weight share one."""
    in_the_dark: InTheDark | None = None
    """Trays that need light while its lamps are off."""

    @property
    def used(self) -> int:
        """How many trays stand on it."""
        return len(self.trays)


@dataclass(frozen=True, slots=True)
class RackView:
    """A rack (or a room's loose shelves) and its shelves, top first as one walks."""

    keys: ClassVar = "rack=name shelves"

    name: str
    shelves: tuple[RackShelf, ...]


@dataclass(frozen=True, slots=True)
class Racks:
    """All racks, and the trays that stand nowhere."""

    keys: ClassVar = "racks loose=loose.number"

    racks: tuple[RackView, ...]
    loose: tuple[RackTray, ...]
    """Trays that stand nowhere."""
