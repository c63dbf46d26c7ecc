"""Pack lots as the book keeps them: what went in, what went out, and their codes."""

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from logbook.text import fold

Why = Literal["waste", "own use", "returned"]


@dataclass(frozen=True, slots=True)
class PackLot:
    """A pack lot of a crop (template id) or a mix (id); `id` is the entry that first named it."""

    id: int
    code: str
    template: int | None
    mix: int | None
    packed_on: date
    best_before: date


@dataclass(frozen=True, slots=True)
class LotCut:
    """A cut that went into a lot: its entry, tray and batch (ids), and g."""

    lot: int
    entry: int
    at: datetime
    tray: int
    number: int
    batch: int
    grams: float


@dataclass(frozen=True, slots=True)
class LotPart:
    """What a mixed lot took of another, g."""

    lot: int
    source: int
    grams: float


@dataclass(frozen=True, slots=True)
class LotPacked:
    """Packs of a lot for a customer's delivery of a day: its entry, and g; None for live trays."""

    lot: int
    entry: int
    at: datetime
    by: str
    customer: int
    day: date
    packs: int
    grams: float | None


@dataclass(frozen=True, slots=True)
class LotOut:
    """What left a lot otherwise, g; of what came back, the customer (id)."""

    lot: int
    entry: int
    at: datetime
    by: str
    why: Why
    grams: float
    customer: int | None = None


def lot_code(day: date, crop: str, run: int) -> str:
    """The code of a lot: day, the crop's first letters, run of that day: 261128-DAI-1."""
    letters = re.sub("[^A-Z]", "", fold(crop).upper())[:3] or "LOT"
    return f"{day:%y%m%d}-{letters}-{run}"


def best_before(packed_on: date, keeps: timedelta) -> date:
    """The last day on which it is good, by the days that its crop keeps in the cold."""
    return packed_on + keeps
