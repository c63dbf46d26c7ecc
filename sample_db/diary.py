"""The rows of the book, gathered in memory and written in one transaction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any

from logbook.growing.looks import Look
from logbook.text import clean_note

if TYPE_CHECKING:
    from sqlmodel import Session

Row = dict[str, Any]


@dataclass
class Diary:
    """Rows by table, with the ids that they will have in an empty book."""

    batches: list[Row] = field(default_factory=list)
    trays: list[Row] = field(default_factory=list)
    entries: list[Row] = field(default_factory=list)
    entry_trays: list[Row] = field(default_factory=list)
    placings: list[Row] = field(default_factory=list)
    weights: list[Row] = field(default_factory=list)
    waterings: list[Row] = field(default_factory=list)
    looks: list[Row] = field(default_factory=list)
    others: dict[str, list[Row]] = field(default_factory=dict)
    trials: list[Row] = field(default_factory=list)
    trial_arms: list[Row] = field(default_factory=list)
    trial_trays: list[Row] = field(default_factory=list)
    trial_criteria: list[Row] = field(default_factory=list)
    trial_decisions: list[Row] = field(default_factory=list)
    tastings: list[Row] = field(default_factory=list)
    tasting_answers: list[Row] = field(default_factory=list)

    def batch(
        self, version: int, lot: str, grams: float | None, planned_for: datetime | None
    ) -> int:
        """Add a batch and give its id; `grams` is dry seed per tray."""
        number = len(self.batches) + 1
        self.batches.append(
            {
                "id": number,
                "version_id": version,
                "lot": lot,
                "grams_per_tray": grams,
                "planned_for": planned_for,
            }
        )
        return number

    def tray(self, number: int, batch: int, version: int, colour: str) -> int:
        """Add a live tray and give its id."""
        tray = len(self.trays) + 1
        self.trays.append(
            {
                "id": tray,
                "number": number,
                "batch_id": batch,
                "version_id": version,
                "colour": colour,
                "live": True,
                "ended_at": None,
                "cut_grams": None,
            }
        )
        return tray

    def ended(self, tray: int, at: datetime, grams: float | None) -> None:
        """Sum up a tray that was cut (its grams in all) or thrown out."""
        self.trays[tray - 1].update(live=False, ended_at=at, cut_grams=grams)

    def entry(
        self,
        kind: str,
        trays: Sequence[int],
        at: datetime,
        by: str,
        *,
        written_at: datetime | None = None,
        act: int | None = None,
        batch: int | None = None,
        note: str = "",
        chore: str = "",
        stage: int | None = None,
        place: int | None = None,
        strikes: int | None = None,
    ) -> int:
        """Add an entry and give its id; without `act` it begins an act of its own.

        Entries are written one after another: what happened while another was being written is
        written right after it.
        """
        number = len(self.entries) + 1
        clean = clean_note(note)
        written = written_at or at
        if self.entries:
            written = max(written, self.entries[-1]["written_at"])
        self.entries.append(
            {
                "id": number,
                "kind": kind,
                "at": at,
                "written_at": written,
                "by": by,
                "note": clean,
                "chore": chore,
                "stage": stage,
                "batch_id": batch,
                "place_id": place,
                "strikes_id": strikes,
                "act_id": act or number,
            }
        )
        self.entry_trays += [{"entry_id": number, "tray_id": tray} for tray in trays]
        return number

    def placed(self, entry: int, tray: int, place: int | None, slot: int | None) -> None:
        """Add where an entry put a tray."""
        self.placings.append({"entry_id": entry, "tray_id": tray, "place_id": place, "slot": slot})

    def weighed(
        self, entry: int, tray: int, grams: float, *, part: bool = False, shared: bool = False
    ) -> None:
        """Add what a weigh-in gave for a tray."""
        self.weights.append(
            {"entry_id": entry, "tray_id": tray, "grams": grams, "part": part, "shared": shared}
        )

    def watered(
        self,
        entry: int,
        amount_ml: float | None,
        *,
        ph: float | None = None,
        ec: float | None = None,
    ) -> None:
        """Add how much water each tray of an entry got, and what was measured of it."""
        self.waterings.append({"entry_id": entry, "amount_ml": amount_ml, "ph": ph, "ec": ec})

    def add(self, table: str, **row: Any) -> None:
        """Add a row of what is known of the room to a table, by its name."""
        self.others.setdefault(table, []).append(row)

    def seen(self, entry: int, look: Look, *, sign: bool = False) -> None:
        """Add what a look saw; an empty look is its entry alone."""
        if not look.empty:
            self.looks.append({"entry_id": entry, "sign_seen": sign, **asdict(look)})

    def write(self, session: Session) -> None:
        """Write all rows, table by table."""
        from sqlalchemy import insert

        from logbook.store import tables
        from logbook.store.book_file import raw_connection
        from logbook.store.search import keep_words

        for table, rows in (
            (tables.BatchRow, self.batches),
            (tables.TrayRow, self.trays),
            (tables.EntryRow, self.entries),
            (tables.EntryTrayRow, self.entry_trays),
            (tables.TrayPlaceRow, self.placings),
            (tables.WeightRow, self.weights),
            (tables.WateringRow, self.waterings),
            (tables.LookRow, self.looks),
            (tables.TrialRow, self.trials),
            (tables.TrialArmRow, self.trial_arms),
            (tables.TrialTrayRow, self.trial_trays),
            (tables.TrialCriterionRow, self.trial_criteria),
            (tables.TrialDecisionRow, self.trial_decisions),
            (tables.TastingRow, self.tastings),
            (tables.TastingAnswerRow, self.tasting_answers),
        ):
            session.execute(insert(table), rows)
        for known in tables.Table.metadata.sorted_tables:
            if known.name in self.others:
                session.execute(insert(known), self.others[known.name])
        keep_words(raw_connection(session))
