"""The room in the days to come: what grows and is planned in it, and where a plan's trays can go."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.reading import Reading
from logbook.growing.days import day_of, wall
from logbook.growing.numbers import numbers_words
from logbook.growing.planning.backward import walked_starts
from logbook.growing.planning.shortage import (
    CUT_MINUTES,
    SOW_MINUTES,
    Planned,
    Shortage,
    shortages,
    stays_of,
)
from logbook.growing.planning.slots import Given, Shelf, SlotUse, Stay, give_out, use_by_day
from logbook.growing.room.light import daily_light
from logbook.growing.trays.forecast import stage_starts
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.lamps import read_surveys


@dataclass(frozen=True, slots=True)
class DayUse:
    """The slots that trays need on a day, and those that there are."""

    keys: ClassVar = """
        day lit_needed=use.lit dark_needed=use.dark lit_slots=use.lit_slots slots=use.slots work_minutes
    """

    day: date
    use: SlotUse
    work_minutes: float
    """Of sowing and cutting."""


@dataclass(frozen=True, slots=True)
class RoomUse:
    """The room by day; the days that are short; and the place of each sowing of the plan, '' for none."""

    days: tuple[DayUse, ...]
    short: tuple[Shortage, ...]
    places: tuple[str, ...]


def room_use(reading: Reading, sowings: Sequence[Planned], days: int) -> RoomUse:
    """How so many days use the room with the sowings of a plan."""
    shelves = _shelves(reading)
    stays, work = _there(reading, {each.id: each.lit for each in shelves})
    held = len(stays)
    begins = []
    for each in sowings:
        begins.append(len(stays))
        stays += each.stays
        _add_work(work, reading, each.sowing.back.sow_at, SOW_MINUTES * each.sowing.trays)
        _add_work(work, reading, each.sowing.back.cut_at, CUT_MINUTES * each.sowing.trays)
    uses = use_by_day(shelves, stays, days)
    given = give_out(shelves, stays) if len(stays) > held else []
    short = shortages(
        uses, work, reading.about.work_hours, sowings, reading.today, reading.hours, reading.now
    )
    return RoomUse(
        tuple(
            DayUse(reading.today + timedelta(days=each.day), each, work[each.day]) for each in uses
        ),
        tuple(_eased(reading, each) for each in short),
        tuple(_place(reading, given[begin] if begin < len(given) else {}) for begin in begins),
    )


def _eased(reading: Reading, short: Shortage) -> Shortage:
    """Where nothing that is yet to be sown can give way: which trays that are there or planned can."""
    if short.offers or short.kind == "work":
        return short
    at = wall(short.day, reading.hours.start, reading.zone)
    there = [tray for tray in reading.live if tray.window and tray.window.best > at]
    ripe = [
        tray.number for tray in there
        if short.kind == "lit" and tray.status == "growing" and not tray.held
        and tray.window and tray.window.start <= at
    ]  # fmt: skip
    ahead = [
        tray.number for tray in there
        if tray.status == "planned" and (tray.state.planned_for or at) <= at
    ]  # fmt: skip
    offers = []
    if ripe:
        offers.append(f"Cut {numbers_words(ripe)} before then, and keep them cold.")
    if ahead:
        offers.append(f"Plan {numbers_words(ahead)} for another day.")
    return replace(short, offers=tuple(offers))


def _place(reading: Reading, given: Given) -> str:
    """The shelf on which most of a sowing begins."""
    return reading.places.path(max(given, key=lambda shelf: given[shelf])) if given else ""


def _shelves(reading: Reading) -> list[Shelf]:
    newest = {each.place: each.even.mean for each in read_surveys(reading)}
    found = []
    for place in reading.places.shelves:
        daily = None
        if place.id in newest and place.lamp_on is not None and place.lamp_off is not None:
            hours = ((place.lamp_off - place.lamp_on - 1) % 1440 + 1) / 60
            daily = daily_light(newest[place.id], hours)
        found.append(Shelf(place.id, place.slots, place.lit, daily))
    return found


def _there(reading: Reading, lit: dict[int, bool]) -> tuple[list[Stay], defaultdict[int, float]]:
    """The stays of all planned and growing trays, and the minutes of work that they make by day."""
    alike: Counter[tuple[int, int | None, int, datetime, datetime]] = Counter()
    shown: dict[tuple[int, int | None, int, datetime, datetime], TrayNow] = {}
    work: defaultdict[int, float] = defaultdict(float)
    for tray in reading.live:
        since = tray.state.planned_for if tray.status == "planned" else tray.state.stage_since
        if since is None or tray.window is None:
            continue
        end = max(tray.window.best, reading.now)
        key = (tray.stored.version_id, tray.state.place, tray.state.stage, since, end)
        alike[key] += 1
        shown[key] = tray
        _add_work(work, reading, end, CUT_MINUTES)
        if tray.status == "planned":
            _add_work(work, reading, max(since, reading.now), SOW_MINUTES)
    stays: list[Stay] = []
    for key, count in alike.items():
        _, place, stage, since, end = key
        tray, template = shown[key], shown[key].template
        if tray.status == "planned":
            starts, stage, place = walked_starts(template, since, tray.hours), 0, None
        else:
            starts = stage_starts(template, stage, since, reading.now)
        stays += stays_of(
            template, count, starts, max(end, starts[-1]), reading.about.stack, reading.today,
            tray.hours, stage=stage, fixed=place, lit=place is None or lit.get(place, True),
        )  # fmt: skip
    return stays, work


def _add_work(
    work: defaultdict[int, float], reading: Reading, at: datetime, minutes: float
) -> None:
    work[(day_of(at, reading.zone) - reading.today).days] += minutes
