"""What the racks show: racks, shelves, trays."""

from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.room.places import Place
from logbook.growing.trays.chores import Chore
from logbook.growing.trays.in_the_dark import InTheDark
from logbook.growing.trays.tray_now import GrowingTray


@dataclass(frozen=True, slots=True)
class RackTray(GrowingTray):
    """A tray on its shelf."""

    keys: ClassVar = """
        tray=number slot crop day_number cut_day due late mould_seen ready mark=colour
        ready_sign=template.sign_to_cut harvest=state.harvest regrowth_day on_hold
    """

    due: tuple[Chore, ...]
    """Chores that are due now, a cut that is best later today too."""
    late: bool
    """Whether any chore of it is late."""


@dataclass(frozen=True, slots=True)
class RackShelf:
    """A shelf and what is on it."""

    keys: ClassVar = """
        place=place.path lamp_on=place.lamp_on lamp_off=place.lamp_off slots=place.slots slots_used
        trays in_the_dark
    """

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
    """All racks, and the trays without a place."""

    keys: ClassVar = "racks loose=loose.number"

    racks: tuple[RackView, ...]
    loose: tuple[RackTray, ...]
    """Trays that stand nowhere."""
