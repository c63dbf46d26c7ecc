"""Trays as they stand at a moment; what a screen or a list says of one derives from here."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, ClassVar, Self

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, moment_words
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.numbers import life, name_words, numbers_words
from logbook.growing.recall.holds import Hold
from logbook.growing.room.places import Held, Place
from logbook.growing.trays.chores import BOTH, RoomHours
from logbook.growing.trays.forecast import Window, tray_window
from logbook.growing.trays.life import Status, TrayState
from logbook.text import Refused
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class StoredTray:
    """A tray with what its batch says of it."""

    id: int
    number: TrayNumber
    batch_id: int
    version_id: int
    colour: str
    live: bool
    lot: str = ""
    grams_per_tray: float | None = None
    planned_for: datetime | None = None
    ended_at: datetime | None = None
    cut_grams: float | None = None

    @property
    def name(self) -> int:
        """What it is called by: its number, or where it has ended that life of its number."""
        return self.number if self.live else life(self.number, self.id)


@dataclass(frozen=True, slots=True)
class TrayNow:
    """A tray as it is now: what is stored of it, its template version, its state.

    `spot` is where it stands, or stood last; `hours` are the day of the room that that is in.
    """

    keys: ClassVar = """
        tray=number status stage place ended_at=state.ended_at grams=state.grams day_number
        harvest=state.harvest regrowth_day mould_seen on_hold
    """

    stored: StoredTray
    template: CropTemplate
    state: TrayState
    spot: Place | None
    hours: RoomHours
    now: datetime
    held: Hold | None
    """The oldest hold that covers it."""

    @classmethod
    def of(cls, tray: TrayNow, *more: Any) -> Self:
        """The same tray as a view that says `more` of it."""
        return cls(
            tray.stored,
            tray.template,
            tray.state,
            tray.spot,
            tray.hours,
            tray.now,
            tray.held,
            *more,
        )

    @property
    def id(self) -> int:
        """The tray's id."""
        return self.stored.id

    @property
    def number(self) -> TrayNumber:
        """Its number, or what else it is named by while it waits for one."""
        return self.stored.number

    @property
    def name(self) -> int:
        """What it is called by: its number, or where it has ended that life of its number."""
        return self.number if self.state.live else life(self.number, self.id)

    @property
    def batch(self) -> str:
        """Its batch."""
        return str(self.stored.batch_id)

    @property
    def crop(self) -> str:
        """The crop and its variety."""
        return self.template.label()

    @property
    def status(self) -> Status:
        """What it has come to."""
        return self.state.status

    @property
    def stage(self) -> str:
        """The stage's name; empty outside one."""
        growing = self.state.status == "growing"
        return self.template.stages[self.state.stage].name if growing else ""

    @property
    def place(self) -> str:
        """Where it is, or was last; empty for nowhere."""
        return self.spot.path if self.spot else ""

    @property
    def walk(self) -> tuple[int, ...]:
        """What sorts trays in walking order."""
        return self.spot.walk if self.spot else ()

    @property
    def slot(self) -> int | None:
        """Its slot, from 1."""
        return self.state.slot

    @property
    def colour(self) -> str:
        """The colour mark."""
        return self.stored.colour

    @property
    def seed_grams(self) -> float | None:
        """Its dry seed, g."""
        return self.template.seed_for(self.stored.grams_per_tray)

    @property
    def day_number(self) -> DayNumber | None:
        """The day number of today, or of the day on which it ended; null before sowing."""
        return self._days_since(self.state.sown_at, self.state.ended_at)

    @property
    def regrowth_day(self) -> DayNumber | None:
        """As the day number, from the cut after which it grows again; null where it does not."""
        growing = self.state.status == "growing"
        return self._days_since(self.state.regrowing_since) if growing else None

    def _days_since(self, since: datetime | None, until: datetime | None = None) -> int | None:
        return self.hours.day_number(since, max(until or self.now, since)) if since else None

    @property
    def today(self) -> date:
        """The day of now in its room."""
        return day_of(self.now, self.hours.zone)

    @property
    def window(self) -> Window | None:
        """Its cut window, late changes taken as made now; null when it was never sown."""
        return tray_window(self.template, self.state, self.now)

    @property
    def mould_seen(self) -> bool:
        """Whether it has mould."""
        return self.state.mould_at is not None

    @property
    def on_hold(self) -> str:
        """What covers it that is on hold, and why; empty where it may go on."""
        return self.held.words if self.held and self.state.live else ""

    @property
    def sign_seen(self) -> bool:
        """Whether the crop's ready sign was seen."""
        return self.state.sign_at is not None

    @property
    def wants_light(self) -> bool:
        """Whether it grows in a stage of light."""
        growing = self.state.status == "growing"
        return growing and self.template.stages[self.state.stage].light == "lit"

    def when(self, at: datetime) -> str:
        """Write a moment in the time of the room that it is in: "07:42", "Tue 18:00"."""
        return moment_words(at, self.now, self.hours.zone)

    def trays_a_slot(self, stack: int) -> int:
        """How many trays like it share a slot now; `stack` is how high those under weight stand."""
        return self.template.trays_a_slot(self.state.stage, stack)

    def last(self, chore: str) -> datetime | None:
        """When it was last watered; for any other chore when it was last looked at."""
        return self.state.last_water if chore in ("water", BOTH) else self.state.last_look


@dataclass(frozen=True, slots=True)
class GrowingTray(TrayNow):
    """A tray that was sown and grows."""

    @property
    def day_number(self) -> DayNumber:
        """The day number of today."""
        return self.hours.day_number(self.state.sown_at or self.now, self.now)

    @property
    def window(self) -> Window:
        """Its cut window, late changes taken as made now."""
        found = tray_window(self.template, self.state, self.now)
        assert found is not None  # noqa: S101 - growing trays have one
        return found

    @property
    def cut_day(self) -> DayNumber:
        """The day number of the day on which it is best cut."""
        return self.hours.day_number(self.state.sown_at or self.now, self.window.best)

    @property
    def ready(self) -> Annotated[str, ("soon", "ready", "late")]:
        """Where it is in its cut window."""
        return self.window.state(self.now, self.hours, self.state.sign_at)


def grew_at(tray: TrayNow, at: datetime | None) -> bool:
    """Whether a tray that is gone by now still grew at a moment: what was on paper comes late."""
    return at is not None and tray.state.ended_at is not None and at < tray.state.ended_at


def refuse_ended(trays: Collection[TrayNow]) -> None:
    """Raise Refused when any of the trays is cut, discarded or struck out."""
    gone = [tray for tray in trays if not tray.state.live]
    if not gone:
        return
    ends: dict[str, list[int]] = {}
    for tray in gone:
        ends.setdefault(tray.status.words, []).append(tray.number)
    tray_is, it_was = ("Tray {} is", "it was") if len(gone) == 1 else ("Trays {} are", "they were")
    numbers = numbers_words(tray.number for tray in gone)
    how = f"{it_was} {next(iter(ends))}"
    if len(ends) > 1:
        how = ", ".join(f"{words}: {numbers_words(some)}" for words, some in ends.items())
    raise Refused(f"{tray_is.format(numbers)} no longer growing ({how}).")


def refuse_held(trays: Collection[TrayNow], when: datetime) -> None:
    """Raise Refused when any of the trays was on hold at a moment and still is."""
    for tray in trays:
        if tray.held is not None and tray.held.at <= when:
            raise Refused(
                f"Tray {name_words(tray.number)} is on hold ({tray.held.words}). "
                f"{Way.RELEASE.of(tray.held.code)} lets it go on."
            )


def taken_slots(trays: Collection[TrayNow], stack: int) -> dict[int, list[Held]]:
    """The slots that growing trays hold, by place id; `stack` is how high trays under weight stand."""
    taken: dict[int, list[Held]] = {}
    for tray in trays:
        if tray.status == "growing" and tray.state.place is not None:
            held = Held(tray.slot, tray.trays_a_slot(stack))
            taken.setdefault(tray.state.place, []).append(held)
    return taken
