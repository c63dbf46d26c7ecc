"""The invented room while its months go by: what every deed reads and writes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from logbook.growing.days import day_of
from logbook.growing.life import Deed
from sample_db.cohort import Cohort
from sample_db.days import Agenda, Days
from sample_db.diary import Diary
from sample_db.dice import Dice
from sample_db.people import on_duty
from sample_db.shelves import Shelves
from sample_db.versions import Version

SEED = 1409
FIRST_NUMBER = 101


class World:
    """The room's days, shelves and template versions, its cohorts, and the diary that they fill."""

    def __init__(
        self, days: Days, shelves: Shelves, versions: Mapping[str, Sequence[Version]]
    ) -> None:
        self.days = days
        self.shelves = shelves
        self.versions = versions
        self.diary = Diary()
        self.dice = Dice(SEED)
        self.meter = Dice(SEED + 1)
        self.agenda = Agenda(days.now)
        self.growing: list[Cohort] = []
        self._next_number = FIRST_NUMBER

    def number(self) -> int:
        """Give the next number for a tray's tape."""
        self._next_number += 1
        return self._next_number - 1

    def by(self, when: datetime) -> str:
        """Give who is there at a moment."""
        return on_duty(day_of(when, self.days.hours.zone))

    def ago(self, when: datetime) -> int:
        """Give how many days before today a moment lies."""
        return (self.days.today - day_of(when, self.days.hours.zone)).days

    def walk(self) -> list[Cohort]:
        """Give the cohorts that still have trays, in walking order."""
        self.growing = [cohort for cohort in self.growing if cohort.trays]
        return sorted(self.growing, key=lambda cohort: min(cohort.spots))

    def entry(
        self,
        cohort: Cohort,
        kind: str,
        at: datetime,
        *,
        trays: Sequence[int] | None = None,
        written_at: datetime | None = None,
        act: int | None = None,
        note: str = "",
        chore: str = "",
        stage: int | None = None,
        strikes: int | None = None,
    ) -> int:
        """Write an entry on a cohort's trays, or on some of them; give its id."""
        return self.diary.entry(
            kind,
            cohort.ids if trays is None else trays,
            at,
            self.by(written_at or at),
            written_at=written_at,
            act=act,
            batch=cohort.batch,
            note=note,
            chore=chore,
            stage=stage,
            strikes=strikes,
        )

    def live(self, cohort: Cohort, deed: Deed) -> None:
        """Let a cohort live through a deed, by the rules of the trade."""
        cohort.live_through(self.days.hours, deed)

    def place(self, cohort: Cohort, entry: int, rack: str) -> None:
        """Put a cohort's trays on a rack; they leave where they stood."""
        self.shelves.leave(cohort.spots)
        spots = self.shelves.take(len(cohort.trays), rack)
        for tray, spot in zip(cohort.ids, spots, strict=True):
            cohort.trays[tray] = spot
            self.diary.placed(entry, tray, *spot)

    def end(self, cohort: Cohort, tray: int, when: datetime, grams: float | None) -> None:
        """Take a tray off the rack: cut, with its grams in all, or thrown out."""
        spot = cohort.trays.pop(tray)
        self.shelves.leave([spot] if spot else [])
        self.diary.ended(tray, when, grams)
