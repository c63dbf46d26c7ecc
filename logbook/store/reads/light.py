"""Walks over shelves with a light meter, as standing entries tell them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from logbook.growing.room.light import Grid, Spot, Uniformity, uniformity
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, grouped


@dataclass(frozen=True, slots=True)
class StoredSurvey:
    """A walk round a shelf with a meter; `height_mm` from tray to lamp, `lux_lamp` '' for PPFD."""

    entry: int
    place: int
    at: datetime
    by: str
    note: str
    grid: Grid
    height_mm: float | None
    lux_lamp: str
    spots: tuple[Spot, ...] = ()

    @property
    def even(self) -> Uniformity:
        """What its readings come to."""
        return uniformity([spot.ppfd for spot in self.spots])


_OF_SURVEY = f"e.id = l.entry_id AND {STANDS}"


def read_surveys(reading: Rows) -> list[StoredSurvey]:
    """Every standing light survey, oldest first."""
    rows = reading.rows(
        "SELECT l.entry_id, l.spot_row, l.spot_column, l.ppfd FROM light_spot l "
        f"CROSS JOIN entry e WHERE {_OF_SURVEY} ORDER BY l.entry_id, l.spot_row, l.spot_column"
    )
    spots = grouped((entry, Spot(*spot)) for entry, *spot in rows)
    surveys = reading.make(
        StoredSurvey,
        'SELECT e.id AS entry, e.place_id AS place, e.at, e."by", e.note, l.height_mm, l.lux_lamp, '
        'l.spot_rows AS "grid.rows", l.spot_columns AS "grid.columns" '
        f"FROM light_survey l CROSS JOIN entry e WHERE {_OF_SURVEY} ORDER BY e.at, e.id",
    )
    return [replace(each, spots=tuple(spots.get(each.entry, ()))) for each in surveys]
