"""Pack lots as the book keeps them: what went in, what went out, and their codes."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from logbook.text import Refused, clean, fold

_CODE = re.compile(r"[A-Za-z0-9][A-Za-z0-9./_-]{0,19}")
"""Up to 20 characters, all in GS1's set 82 (AI 10)."""
Why = Literal["waste", "own use", "returned"]
OWN: tuple[Why, ...] = ("waste", "own use")
"""Why something goes out that no customer had."""
LEAST = 0.5
"""Grams below this are nothing: half of what is written."""


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


@dataclass(frozen=True, slots=True)
class LotNow:
    """A lot with all that stands of it; what a customer returned is in `outs`, and wasted."""

    lot: PackLot
    cuts: tuple[LotCut, ...] = ()
    parts: tuple[LotPart, ...] = ()
    """What it took of others."""
    given: tuple[LotPart, ...] = ()
    """What others took of it."""
    packed: tuple[LotPacked, ...] = ()
    outs: tuple[LotOut, ...] = ()

    @property
    def grams_in(self) -> float:
        """What was cut or mixed into it."""
        return _sum(self.cuts) + _sum(self.parts)

    @property
    def grams_despatched(self) -> float:
        """What customers got and didn't return."""
        return _sum(self.packed) - self._out("returned")

    @property
    def grams_mixed(self) -> float:
        """What went into mixes."""
        return _sum(self.given)

    @property
    def grams_waste(self) -> float:
        """What was wasted, what came back too."""
        return self._out("waste", "returned")

    @property
    def grams_own(self) -> float:
        """What was for own use."""
        return self._out("own use")

    @property
    def grams_left(self) -> float:
        """What is left; below 0 where more went out than its standing weights say."""
        gone = self.grams_despatched + self.grams_mixed + self.grams_waste + self.grams_own
        return self.grams_in - gone

    @property
    def in_store(self) -> bool:
        """Whether something of it is left."""
        return self.grams_left >= LEAST

    @property
    def begun(self) -> bool:
        """Whether some of it has gone out, so that no further cut joins it."""
        return bool(self.packed or self.given or self.outs or self.parts)

    def got(self, customer: int) -> float:
        """What a customer (id) got of it and has not returned, g."""
        packed = _sum(each for each in self.packed if each.customer == customer)
        return packed - _sum(each for each in self.outs if each.customer == customer)

    def _out(self, *why: Why) -> float:
        return _sum(each for each in self.outs if each.why in why)


def _sum(moves: Iterable[LotCut | LotPart | LotPacked | LotOut]) -> float:
    return sum(each.grams or 0.0 for each in moves)


def code_read(text: str) -> str:
    """Read a code that somebody gives a lot; raise Refused for what labels and phones can't take."""
    code = clean(text, lines=False)
    if not _CODE.fullmatch(code):
        raise Refused(
            f'"{code[:30]}" can\'t be a lot code. Use up to 20 letters and digits, with - . / or _ '
            "between them, like 261128-DAI-1.",
            "code",
        )
    return code


def lot_code(day: date, crop: str, run: int) -> str:
    """The code of a lot: day, the crop's first letters, run of that day: 261128-DAI-1."""
    letters = re.sub("[^A-Z]", "", fold(crop).upper())[:3] or "LOT"
    return f"{day:%y%m%d}-{letters}-{run}"


def best_before(packed_on: date, keeps: timedelta) -> date:
    """The last day on which it is good, by the days that its crop keeps in the cold."""
    return packed_on + keeps
