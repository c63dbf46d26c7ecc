"""The book itself and its places."""

from __future__ import annotations

from datetime import datetime

from sqlmodel import Field

from logbook.store.tables.base import Numbered


class BookRow(Numbered, table=True):
    """The book itself: one row. `day_start` and `day_end` are minutes after midnight."""

    __tablename__ = "book"
    name: str
    zone: str
    units: str = "metric"
    first_day: int = 1
    day_start: int = 420
    day_end: int = 1140
    made_at: datetime


class PlaceRow(Numbered, table=True):
    """A room, rack or shelf; `position` orders it among its siblings."""

    __tablename__ = "place"
    parent_id: int | None = Field(default=None, foreign_key="place.id", index=True)
    kind: str
    name: str
    position: int = 0
    slots: int = 0
    lamp_on: int | None = None
    lamp_off: int | None = None
    retired: bool = False
