"""Places in columns: their slots and lamp hours."""

from logbook.actions.room.places import PlaceView
from logbook.growing.table import Column


def _free(one: PlaceView) -> str:
    return "full" if one.place.kind == "shelf" and not one.free else str(one.free)


def _lamps(one: PlaceView) -> str:
    hours = one.place.hours_words if one.place.kind == "shelf" else one.place.kind
    return f"{hours}, retired" if one.place.retired else hours


PLACES: tuple[Column[PlaceView], ...] = (
    Column("place", lambda one: "  " * one.place.path.count("/") + one.place.name, right=False),
    Column("slots", lambda one: str(one.used + one.free), spare=2),
    Column("in use", lambda one: str(one.used), spare=1),
    Column("free", _free),
    Column("lamps", _lamps, right=False),
)
PATH: Column[PlaceView] = Column("place", lambda one: one.place.path, right=False)
"""The first of them where each line is read by itself."""
