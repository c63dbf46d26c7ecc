"""Days on which trays to come don't fit into the room, and what can be done about each."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from math import ceil
from typing import Annotated

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, day_words, wall
from logbook.growing.planning.backward import walked_starts
from logbook.growing.planning.plan import Sowing
from logbook.growing.planning.slots import SlotUse, Stay
from logbook.growing.trays.chores import RoomHours
from logbook.text import listed, plural

SOW_MINUTES, CUT_MINUTES = 5.0, 5.0
"""Work on a tray (common practice, no source)."""
KINDS = ("lit", "dark", "work")


@dataclass(frozen=True, slots=True)
class Shortage:
    """What a day lacks: slots with light, slots besides, or for "work" how many trays are too many."""

    day: date
    kind: Annotated[str, KINDS]
    slots: int
    offers: tuple[str, ...] = ()
    """What can be done about it, a sentence each."""


def stays_of(
    template: CropTemplate, trays: int, starts: Sequence[datetime], end: datetime, stack: int,
    today: date, hours: RoomHours, *, stage: int = 0, fixed: int | None = None, lit: bool = True,
) -> list[Stay]:  # fmt: skip
    """The stays of trays from stage `stage` on, whose stages begin at `starts`, until they are cut.

    Those on a shelf already (`fixed`, and whether it is `lit`) stay there, as long as its light does.
    """
    found: list[Stay] = []
    days = [max(0, (day_of(at, hours.zone) - today).days) for at in (*starts, end)]
    for place, (first, until) in enumerate(pairwise(days), stage):
        each = template.stages[place]
        slots = ceil(trays / template.trays_a_slot(place, stack))
        wants = each.light == "lit"
        stay = Stay(
            first, until, slots, wants, template.targets.light if wants else None,
            fixed if lit or not wants else None,
        )  # fmt: skip
        last = found[-1] if found else None
        if last and (last.slots, last.lit, last.fixed) == (slots, wants, stay.fixed):
            found[-1] = Stay(last.first, until, slots, wants, last.light, last.fixed)
        elif until > first:
            found.append(stay)
    return found


@dataclass(frozen=True, slots=True)
class Planned:
    """A sowing of the plan with its crop's name, its template and the days on which it takes slots."""

    name: str
    template: CropTemplate
    sowing: Sowing
    stays: tuple[Stay, ...]


def planned(
    name: str, template: CropTemplate, sowing: Sowing, stack: int, today: date, hours: RoomHours
) -> Planned:
    """A sowing with its stays."""
    starts = walked_starts(template, sowing.back.sow_at, hours)
    stays = stays_of(template, sowing.trays, starts, sowing.back.cut_at, stack, today, hours)
    return Planned(name, template, sowing, tuple(stays))


def shortages(
    uses: Sequence[SlotUse], work: Mapping[int, float], work_hours: float | None,
    sowings: Sequence[Planned], today: date, hours: RoomHours, now: datetime,
) -> Iterator[Shortage]:  # fmt: skip
    """The days that lack slots, or time for all sowing and cutting (`work`: minutes by day from today)."""
    for use in uses:
        for kind, lacks in (("lit", use.short_lit), ("dark", use.short_dark)):
            if lacks:
                there = [
                    each
                    for each in sowings
                    if any(
                        use.day in stay.days and stay.lit == (kind == "lit") for stay in each.stays
                    )
                ]
                yield _shortage(use.day, kind, lacks, there, today, hours, now)
        over = work.get(use.day, 0.0) - 60 * work_hours if work_hours else 0.0
        if over > 0:
            day = today + timedelta(days=use.day)
            there = [
                each
                for each in sowings
                if day in (day_of(each.sowing.back.sow_at, hours.zone),
                           day_of(each.sowing.back.cut_at, hours.zone))
            ]  # fmt: skip
            many = ceil(over / max(SOW_MINUTES, CUT_MINUTES))
            yield _shortage(use.day, "work", many, there, today, hours, now)


def _shortage(
    place: int, kind: str, lacks: int, there: Sequence[Planned], today: date, hours: RoomHours,
    now: datetime,
) -> Shortage:  # fmt: skip
    day = today + timedelta(days=place)
    ways = (_cold, _moved)
    offers = [
        next((said for each in there if (said := way(each, kind, day, hours, now))), "")
        for way in ways
    ]
    names = dict.fromkeys(
        name for each in there for served in each.sowing.serves for name in served.customers
    )
    if names:
        offers.append(f"Ask {listed(list(names), 4, 'or')} for less, or for another day.")
    return Shortage(day, kind, lacks, tuple(filter(None, offers)))


def _cold(each: Planned, kind: str, day: date, hours: RoomHours, now: datetime) -> str:
    """Offer to cut it by the day that is short and to keep it cold; '' where that can't be."""
    back, keeps = each.sowing.back, each.template.keeps
    last = day - timedelta(days=kind == "work")
    cut = wall(last, hours.start, hours.zone)
    if kind == "dark" or cut < back.cut.start or cut <= now or cut >= back.cut_at:
        return ""
    if max(served.ready_at for served in each.sowing.serves) - cut > keeps:
        return ""
    until = max(day_of(served.ready_at, hours.zone) for served in each.sowing.serves)
    return (
        f"Cut the {plural(each.sowing.trays, 'tray')} of {each.name} on {day_words(last)} already and "
        f"keep them cold until {day_words(until)}."
    )


def _moved(each: Planned, kind: str, day: date, hours: RoomHours, now: datetime) -> str:
    """Offer to sow it earlier or later, within its cut window; '' where that can't be."""
    back, zone = each.sowing.back, hours.zone
    sow_day = day_of(back.sow_at, zone)
    stays = [stay for stay in each.stays if kind == "work" or stay.lit == (kind == "lit")]
    first = sow_day if kind == "work" else None
    for stay in stays:
        begins = sow_day + timedelta(days=stay.first - each.stays[0].first)
        ends = begins + timedelta(days=len(stay.days))
        if begins <= day < ends:
            first, last = begins, ends
            break
    else:
        last = sow_day + timedelta(days=1)
    if first is None or (kind == "work" and sow_day != day):
        return ""
    later, earlier = day - first + timedelta(days=1), last - day
    if kind == "work":
        later = earlier = timedelta(days=1)
    begins_at = back.soak_at or back.sow_at
    for shift, way in ((later, "later"), (-earlier, "earlier")):
        fits = back.cut.start + shift <= back.cut_at <= back.cut.by + shift
        if fits and begins_at + shift >= now:
            moved = day_words(sow_day + shift)
            return (
                f"Sow the {plural(each.sowing.trays, 'tray')} of {each.name} "
                f"{plural(abs(shift.days), 'day')} {way}, on {moved}; the cut stays in its window."
            )
    return ""
