"""The round: the chores of a day in the order in which the grower walks past the trays."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from datetime import date, datetime
from heapq import merge
from operator import attrgetter
from typing import Any, ClassVar
from zoneinfo import ZoneInfo

from logbook.growing.days import clock_words, day_of, day_words, moment_words
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.measures import ago_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.upkeep import DueDuty
from logbook.growing.trays.chores import BOTH, CHORES, Chore
from logbook.growing.trays.forecast import DueChore, Window, both, chores_of_tray, tray_window
from logbook.growing.trays.in_the_dark import InTheDark
from logbook.growing.trays.life import TrayState
from logbook.growing.trays.tray_now import TrayNow

BENCH = "bench"
_Pairs = list[tuple[DueChore, TrayNow]]


@dataclass(frozen=True, slots=True)
class RoundTray:
    """One tray of a round line."""

    tray: int
    number: int
    due_at: datetime
    walk_at: datetime
    last_at: datetime | None
    colour: str


@dataclass(frozen=True, slots=True)
class RoundLine:
    """Trays that share place, batch, stage and chore. Moments are the earliest of theirs.

    `day_number` and `stage` are those of the round's day; before the sowing the day is the first.
    """

    keys: ClassVar = """
        chore trays=numbers batch crop place day_number stage due_at walk_at overdue late later words
        mould_seen_on=mouldy harvest *window
        ready_sign=sign ready_sign_seen=sign_seen seed_grams_per_tray=seed_grams
    """

    chore: Chore
    words: str
    """The chore in words."""
    place: str
    """Rack and shelf."""
    place_id: int | None
    walk: tuple[int, ...]
    batch: str
    batch_id: int
    crop: str
    zone: ZoneInfo
    """The time of the room that the place is in."""
    stage: str
    """The stage's name; empty before sowing."""
    day_number: DayNumber
    trays: tuple[RoundTray, ...]
    due_at: datetime
    """The planned moment."""
    walk_at: datetime
    """The first walk at or after it: the round offers it then."""
    late_from: datetime
    later: bool
    """Whether it comes later than now."""
    overdue: bool
    """Whether its walk has passed; for a cut, the first walk after its window."""
    late: bool
    """Whether the words call it late: overdue by more than its chore may wait."""
    window: Window | None
    sign: str
    sign_seen: bool
    seed_grams: float | None
    mouldy: tuple[TrayNumber, ...] = ()
    """Trays with mould."""
    nth: int = 0
    """Which of several on a day of this chore; 0 for the first."""
    harvest: int = 1
    """Which harvest the trays' next cut is of: 1 is the first, the others are regrowth."""

    @property
    def numbers(self) -> tuple[TrayNumber, ...]:
        """The trays' numbers, ascending."""
        return tuple(sorted(tray.number for tray in self.trays))

    @property
    def key(self) -> tuple[object, ...]:
        """What tells this line from the others of a round."""
        return (
            self.chore, self.batch_id, self.place_id, self.stage, self.later, self.nth,
            self.harvest,
        )  # fmt: skip

    @property
    def said(self) -> str:
        """What is due, on what and where."""
        return f"{self.words}, {self.crop}, {self.place}"

    @property
    def waits(self) -> bool:
        """Whether the line belongs below, under "later": a cut that is best today does not."""
        return self.later and self.chore != "cut"

    @property
    def mould_words(self) -> str:
        """Say on which trays mould was seen; '' for none."""
        return f"mould: {numbers_words(self.mouldy)}" if self.mouldy else ""

    def when_words(self, now: datetime, *, brief: bool = False) -> str:
        """Say when it is or was due, in few words; `brief` keeps to 21 letters what is late."""
        if self.chore == "cut":
            return self._cut_words(now)
        if self.chore in ("water", BOTH) and not self.later:
            lasts = [tray.last_at for tray in self.trays if tray.last_at is not None]
            said = "not watered yet" if not lasts else "not all watered"
            if len(lasts) == len(self.trays):
                ago, short = (now - min(lasts)).total_seconds(), brief and self.late
                said = (
                    f"unwatered {ago_words(ago, brief=True)}"
                    if short
                    else f"watered {ago_words(ago)} ago"
                )
            said = f"late, {said}" if self.late else said
            return f"{said}, {self.sign}?" if self.sign and not brief else said
        if self.later:
            return self.times_words(now)
        if self.late:
            return f"late {ago_words((now - self.late_from).total_seconds())}"
        if self.chore == "look" and self.sign:
            return f"{self.sign}?"
        due, today = day_of(self.due_at, self.zone), day_of(now, self.zone)
        weekday = "" if due == today else f"{day_words(due)[:3]} "
        return f"since {weekday}{clock_words(self.due_at, self.zone)}"

    def times_words(self, now: datetime) -> str:
        """Each time at which some of the trays are offered, with the planned one where it differs.

        What is late already is forecast as if done now: that moment was not planned.
        """
        pairs = sorted({(tray.walk_at, tray.due_at) for tray in self.trays})
        return ", ".join(
            moment_words(walk, now, self.zone)
            + (f" (planned {moment_words(due, walk, self.zone)})" if due not in (walk, now) else "")
            for walk, due in pairs
        )

    def _cut_words(self, now: datetime) -> str:
        if self.sign_seen:
            return "ready sign seen"
        if self.late:
            return f"late {ago_words((now - self.late_from).total_seconds())}"
        if self.window is None:
            return "ready"
        best, by, today = (day_of(at, self.zone) for at in (self.window.best, self.window.by, now))
        if best == today:
            return "best today"
        if best > today:
            return f"best {day_words(best, today)}"
        return "last day" if by == today else f"by {day_words(by, today)}"


@dataclass(frozen=True, slots=True)
class OnHold:
    """Trays that are planned or grow and are on hold for one reason."""

    keys: ClassVar = "name why trays=numbers"

    name: str
    """What is on hold; empty for the trays themselves."""
    why: str
    numbers: tuple[TrayNumber, ...]

    @property
    def words(self) -> str:
        """Say which trays are on hold, through what and why."""
        return f"On hold: {numbers_words(self.numbers)} ({': '.join(filter(None, (self.name, self.why)))})"


@dataclass(frozen=True, slots=True)
class Round:
    """What every tray needs on a day, in walking order, then by time."""

    keys: ClassVar = "day chores=lines upkeep stops late mould_seen_on=mouldy in_the_dark on_hold"

    day: date
    now: datetime
    lines: tuple[RoundLine, ...]
    mouldy: tuple[TrayNumber, ...] = ()
    """Growing trays with mould, whether something is due on them or not."""
    in_the_dark: tuple[InTheDark, ...] = ()
    """Trays that need light on shelves whose lamps are off, as it is now."""
    upkeep: tuple[DueDuty, ...] = ()
    """What is to be cleaned or checked that day, in walking order."""
    on_hold: tuple[OnHold, ...] = ()
    """Trays whose chores are left out until they are released."""

    @property
    def upkeep_later(self) -> tuple[DueDuty, ...]:
        """What is to be cleaned or checked later that day."""
        return tuple(each for each in self.upkeep if each.later)

    @property
    def upkeep_due(self) -> tuple[DueDuty, ...]:
        """What is to be cleaned or checked now."""
        return tuple(each for each in self.upkeep if not each.later)

    @property
    def due(self) -> tuple[RoundLine, ...]:
        """Lines to do now."""
        return tuple(line for line in self.lines if not line.waits)

    @property
    def waiting(self) -> tuple[RoundLine, ...]:
        """Lines of later today, by time."""
        rest = filter(attrgetter("waits"), self.lines)
        return tuple(sorted(rest, key=attrgetter("walk_at", "due_at", "walk", "batch_id")))

    @property
    def stops(self) -> int:
        """How many places there is something to do at now."""
        return len({line.place for line in self.walked()})

    @property
    def late(self) -> int:
        """How many lines are late."""
        return sum(line.late for line in self.walked())

    @property
    def count(self) -> int:
        """How many lines there are to do now."""
        return len(self.due) + len(self.upkeep_due)

    def walked(self) -> Iterator[RoundLine | DueDuty]:
        """All lines that are not for later, in walking order; of a place its upkeep first."""
        return _merged(self.due, self.upkeep_due)

    def whole(self) -> Iterator[RoundLine | DueDuty]:
        """All lines in walking order."""
        return _merged(self.lines, self.upkeep)


def _merged(lines: Iterable[RoundLine], upkeep: Iterable[DueDuty]) -> Iterator[RoundLine | DueDuty]:
    return merge(upkeep, lines, key=lambda each: (each.walk, each.place))


def _line(
    chore: DueChore, tray: TrayNow, others: _Pairs, day: date | None,
    nth: int,
) -> RoundLine:  # fmt: skip
    state, template, now, hours = tray.state, tray.template, tray.now, tray.hours
    day = day or tray.today
    first, earliest = min(others, key=lambda pair: (pair[0].due_at, pair[1].number))
    age = (day - day_of(state.sown_at, hours.zone)).days if state.sown_at else 0
    asks = chore.chore in ("look", BOTH) and state.stage == len(template.stages) - 1
    return RoundLine(
        chore.chore, first.words, tray.place or BENCH, state.place, tray.walk, tray.batch,
        tray.stored.batch_id, tray.crop, hours.zone,
        stage="" if state.status == "planned" else template.stages[first.stage].name,
        day_number=max(age, 0) + hours.first_day,
        trays=tuple(
            RoundTray(
                each.id, each.number, due.due_at, due.walk_at, each.last(due.chore), each.colour
            )
            for due, each in sorted(others, key=lambda pair: pair[1].number)
        ),
        due_at=first.due_at, walk_at=min(due.walk_at for due, _ in others),
        late_from=min(due.late_from for due, _ in others),
        later=all(due.later for due, _ in others), overdue=any(due.overdue for due, _ in others),
        late=any(due.late for due, _ in others),
        window=tray_window(template, earliest.state, now) if chore.chore == "cut" else None,
        sign=template.sign_to_cut if asks else "",
        sign_seen=any(each.state.sign_at is not None for _, each in others),
        seed_grams=tray.seed_grams,
        mouldy=tuple(sorted(each.number for _, each in others if each.mould_seen)), nth=nth,
        harvest=state.harvest,
    )  # fmt: skip


_ASKING = attrgetter(
    *(each.name for each in fields(TrayState) if each.name not in ("place", "slot"))
)
"""What chores follow from: all of a tray's state but where it stands."""


def _chores_of_trays(
    trays: Iterable[TrayNow], now: datetime, day: date | None
) -> Iterator[tuple[TrayNow, list[DueChore]]]:
    """Trays with their chores, made once for trays of a batch of which the same is known."""
    known: dict[tuple[int, int], list[tuple[Any, list[DueChore]]]] = {}
    for tray in trays:
        if tray.held:
            continue
        asking = (tray.hours, _ASKING(tray.state))
        alike = known.setdefault((tray.stored.batch_id, tray.stored.version_id), [])
        found = next((chores for other, chores in alike if other == asking), None)
        if found is None:
            found = chores_of_tray(
                tray.template, tray.state, now, day or tray.today, tray.hours, whole=day is not None
            )
            alike.append((asking, found))
        yield tray, found


def _join_looks(groups: dict[tuple[Any, ...], _Pairs]) -> None:
    """Let trays that want water and a look at the same walk be one line; the looks of others stay."""
    looks = {key: group for key, group in groups.items() if key[0] == "look"}
    for key, group in [each for each in groups.items() if each[0][0] == "water"]:
        for alike, seen in looks.items():
            wanted = {tray.id: due for due, tray in seen}
            walks = {each[0][0].walk_at for each in (group, seen) if each and key[4]}
            if (
                alike[1:-1] != key[1:-1] or len(walks) > 1
                or wanted.keys().isdisjoint(tray.id for _, tray in group)
            ):  # fmt: skip
                continue
            groups[key] = [(both(due, wanted.pop(tray.id, due)), tray) for due, tray in group]
            seen[:] = [each for each in seen if each[1].id in wanted]
            if not seen:
                del groups[alike]
            break


def make_round(
    trays: Iterable[TrayNow], now: datetime, today: date, day: date | None = None
) -> Round:
    """The round of now, or of a day: one line for trays that share place, batch, stage and chore.

    For now, a tray's day is that of its room, and the next of several waterings stands alone.
    """
    groups: dict[tuple[Any, ...], _Pairs] = {}
    trays = list(trays)
    mouldy = [each.number for each in trays if each.state.status == "growing" and each.mould_seen]
    for tray, chores in _chores_of_trays(trays, now, day):
        seen = Counter[tuple[object, ...]]()
        for due in chores:
            stage = tray.template.stages[due.stage].name
            again = tray.state.harvest if due.chore == "cut" else 0
            key = (due.chore, tray.stored.batch_id, tray.state.place, stage, due.later, again)
            groups.setdefault((*key, seen[key]), []).append((due, tray))
            seen[key] += 1
    _join_looks(groups)
    lines = [_line(*pairs[0], pairs, day, key[-1]) for key, pairs in groups.items()]
    order = {chore: place for place, chore in enumerate(CHORES)}
    lines.sort(
        key=lambda each: (each.walk, each.place, each.due_at, order[each.chore], each.batch_id)
    )
    held: dict[tuple[str, str], list[int]] = {}
    for each in trays:
        if each.held:
            own = each.held.on.tray_id is not None
            held.setdefault(("" if own else each.held.name, each.held.why), []).append(each.number)
    on_hold = tuple(OnHold(*of, tuple(sorted(numbers))) for of, numbers in held.items())
    return Round(day or today, now, tuple(lines), tuple(sorted(mouldy)), on_hold=on_hold)
