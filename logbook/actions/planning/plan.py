"""The plan: what to soak and sow for the deliveries to come, and its acceptance."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.deliveries import supply
from logbook.actions.planning.room_use import RoomUse, room_use
from logbook.actions.reading import Reading
from logbook.actions.seed.needs import seed_needs
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.sowing import SowDraft, sow_within
from logbook.actions.writing import Act
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import grams_words, number_words
from logbook.growing.orders.cover import Stock, ToCut
from logbook.growing.orders.wishes import Delivery
from logbook.growing.planning.backward import Backward
from logbook.growing.planning.plan import Crop, Plan, PlannedLine, Sowing, plan_for
from logbook.growing.planning.seed_need import SeedNeed
from logbook.growing.planning.shortage import planned
from logbook.growing.quantities import PLAN_WEEKS
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.templates import read_templates
from logbook.text import Refused, clean, fold, listed, plural

Name = tuple[str, datetime]
"""What a sowing of a plan goes by: its crop, and when it is sown."""


@dataclass(frozen=True, slots=True)
class LineView:
    """A crop of a delivery, and how surely there will be enough of it."""

    keys: ClassVar = "crop grams packs trays=line.trays chance_of_enough late=line.late"

    crop: str
    line: PlannedLine

    @property
    def grams(self) -> float:
        """What is promised; live trays at what they are expected to weigh."""
        return self.line.cover.promised

    @property
    def packs(self) -> int:
        """How many packs, or live trays."""
        return self.line.packs

    @property
    def chance_of_enough(self) -> float:
        """With the trays that are to be sown for it."""
        return self.line.cover.chance


@dataclass(frozen=True, slots=True)
class DeliveryPlan:
    """A delivery with the crops that are promised for it."""

    ready_at: datetime
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True)
class SowingView:
    """Trays to be sown together: how many, when to soak, sow and cut, where, and what for."""

    keys: ClassVar = """
        crop trays=sowing.trays soak_at=back.soak_at sow_at=back.sow_at cut_at=back.cut_at place
        serves=sowing.serves
    """

    crop: str
    template: CropTemplate
    sowing: Sowing
    place: str
    """Where there is room for it at first; empty where there is none."""
    day: date
    """The day on which it begins, with its soak or its sowing."""

    @property
    def name(self) -> Name:
        """What it goes by while the plan is as it is."""
        return self.crop, self.back.sow_at

    @property
    def back(self) -> Backward:
        """Its times."""
        return self.sowing.back


@dataclass(frozen=True, slots=True)
class PlanView:
    """What to soak and sow for the deliveries to come; the chance that is wanted of each."""

    keys: ClassVar = "deliveries sowings short_of_room=room.short seed room=room.days"

    deliveries: tuple[DeliveryPlan, ...]
    sowings: tuple[SowingView, ...]
    seed: tuple[SeedNeed, ...]
    room: RoomUse
    sure: float
    notices: tuple[str, ...] = ()


def plan(book: Book, weeks: int = 2) -> PlanView:
    """What begins within so many weeks, for the deliveries until what begins then can be cut."""
    PLAN_WEEKS.checked(weeks)
    with book.reading() as reading:
        return _view(reading, weeks)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a plan is made from."""

    deliveries: Sequence[Delivery]
    stock: Sequence[Stock]
    trays: Sequence[ToCut]
    crops: Mapping[int, Crop]


def wanted_until(reading: Reading, last: date, only: Collection[int] = ()) -> Wanted:
    """The deliveries from now to a day and what there is for them, of all their crops or `only` these (ids)."""
    deliveries, stock, trays, named = supply(reading, last, only=only)
    deliveries = [each for each in deliveries if each.ready_at > reading.now]
    stored = {each.id: each for each in read_templates(reading) if each.id in named}
    luck = reading.luck([(each.version_id, 1) for each in stored.values()])
    crops = {
        crop: Crop(
            each.template, luck[each.version_id, 1], reading.about.kept, reading.shifts(crop)
        )
        for crop, each in stored.items()
    }
    return Wanted(deliveries, stock, trays, crops)


def longest_days(reading: Reading) -> int:
    """How many days the slowest crop in use takes from soak to the end of its cut window."""
    spans = (
        each.template.soak_seconds + each.template.planned_seconds() + each.template.cut.by_seconds
        for each in read_templates(reading)
        if not each.retired
    )
    return timedelta(seconds=max(spans, default=0)).days + 2


def _view(reading: Reading, weeks: int) -> PlanView:
    until = reading.today + timedelta(days=7 * weeks)
    wanted = wanted_until(reading, until + timedelta(days=longest_days(reading)))
    made = plan_for(
        wanted.deliveries, wanted.stock, wanted.trays, wanted.crops, reading.hours, reading.now,
        reading.about.sure,
    )  # fmt: skip
    names = {crop: each.template.name for crop, each in wanted.crops.items()}
    soon = [
        planned(
            names[each.crop], wanted.crops[each.crop].template, each, reading.about.stack,
            reading.today, reading.hours,
        )
        for each in made.sowings
        if day_of(each.back.soak_at or each.back.sow_at, reading.zone) < until
    ]  # fmt: skip
    room = room_use(reading, soon, 7 * weeks)
    sowings = tuple(
        SowingView(each.name, each.template, each.sowing, place,
                   day_of(each.sowing.back.soak_at or each.sowing.back.sow_at, reading.zone))
        for each, place in zip(soon, room.places, strict=True)
    )  # fmt: skip
    served = {served.ready_at for each in sowings for served in each.sowing.serves}
    last = max(served, default=reading.now)
    deliveries = tuple(
        DeliveryPlan(each.ready_at, tuple(LineView(names[line.cover.crop], line) for line in lines))
        for each, lines in made.deliveries
        if each.ready_at in served
        or day_of(each.ready_at, reading.zone) < until
        or (each.ready_at < last and not any(line.trays for line in lines))
    )
    notices = tuple(_notices(reading, made, wanted.crops, until))
    return PlanView(
        deliveries, sowings, tuple(_seed(reading, sowings)), room, reading.about.sure, notices
    )


def _notices(reading: Reading, made: Plan, crops: Mapping[int, Crop], until: date) -> Iterator[str]:
    """Say what the plan can do nothing for."""
    for delivery, lines in made.deliveries:
        if day_of(delivery.ready_at, reading.zone) >= until:
            break
        for line in lines:
            crop, when = crops[line.cover.crop], reading.when(delivery.ready_at)
            name = crop.template.name
            if line.late and not crop.weighs:
                yield f"{name} for {when}: its template expects no weight, so no trays are planned."
            elif line.late:
                short = f"{grams_words(line.cover.short, reading.units)} short, and " * bool(
                    line.cover.short
                )
                yield f"{name} for {when}: {short}no sowing can be ready by then."
            elif line.cover.chance < made.sure:
                chance = number_words(100 * line.cover.chance, 0)
                yield f"{name} for {when}: one sowing can't make it surer than {chance} %."


def _seed(reading: Reading, sowings: Sequence[SowingView]) -> list[SeedNeed]:
    """What the plan and the sowings that are planned already need of each crop's seed."""
    return seed_needs(
        reading,
        (
            (each.template.label(), each.day, (each.template.seed_grams or 0.0) * each.sowing.trays)
            for each in sowings
        ),
    )


def accept(book: Book, which: Sequence[str], weeks: int = 2) -> Done:
    """Write sowings of the plan, as `sow` does: "all", a day, a crop, or a crop on a day ("radish fri").

    Raises Refused where any of these words means nothing in the plan; then nothing is written.
    """
    PLAN_WEEKS.checked(weeks)
    with book.writing() as act:
        view = _view(act.reading, weeks)
        chosen: dict[int, SowingView] = {}
        for words in which:
            chosen |= _meant(act.reading, view, words)
        return _write(act, [chosen[place] for place in sorted(chosen)])


def accept_these(book: Book, names: Sequence[Name], weeks: int = 2) -> Done:
    """Write sowings of the plan by their names; those that the plan doesn't have any more are left out."""
    with book.writing() as act:
        view = _view(act.reading, weeks)
        return _write(act, [each for each in view.sowings if each.name in names])


def accept_for(book: Book, ready_at: datetime) -> Done:
    """Write the sowings of the plan that serve a delivery. Raises Refused where there are none."""
    with book.writing() as act:
        ahead = (day_of(ready_at, act.reading.zone) - act.reading.today).days
        serving = [
            each
            for each in _view(act.reading, ahead // 7 + 1).sowings
            if ready_at in [served.ready_at for served in each.sowing.serves]
        ]
        return _write(act, serving)


def _meant(reading: Reading, view: PlanView, words: str) -> dict[int, SowingView]:
    """The sowings that words mean, by their place in the plan."""
    said = fold(clean(words, lines=False))
    found = {}
    for place, each in enumerate(view.sowings):
        days = {fold(day_words(each.day)), fold(day_words(each.day)).split()[0], f"{each.day}"}
        crop = fold(each.crop)
        with suppress(Refused):  # a crop, or a word
            asked = parse_day_ahead(said.removeprefix(f"{crop} "), reading.now, reading.zone)
            days |= {said.removeprefix(f"{crop} ")} if asked == each.day else set()
        if said in ("all", crop, *days, *(f"{crop} {day}" for day in days)):
            found[place] = each
    if not found:
        have = [f"{each.crop} {day_words(each.day)}" for each in view.sowings]
        planned = f"The plan has {listed(have, 6)}." if have else "The plan has nothing to sow."
        raise Refused(
            f'The plan has no "{words[:40]}"; write all, a day, a crop, or a crop and a day. '
            f"{planned}"
        )
    return found


def _write(act: Act, sowings: Sequence[SowingView]) -> Done:
    if not sowings:
        raise Refused("The plan has changed. Look at it again.")
    numbers: list[int] = []
    said = []
    for each in sowings:
        draft = SowDraft(
            each.crop, each.sowing.trays, each.back.sow_at, plan=True, place=each.place,
            note=for_words(each, act.reading),
        )  # fmt: skip
        numbers += sow_within(act, draft).plan.numbers
        begins = act.reading.when(each.back.soak_at or each.back.sow_at)
        said.append(f"{plural(each.sowing.trays, 'tray')} of {each.crop} from {begins}")
    return done_of(act, f"planned: {listed(said, 6)}", numbers)


def for_words(sowing: SowingView, reading: Reading) -> str:
    """Say what a sowing is for: "for Fri 1 May: Bistro"."""
    today = reading.today
    return "for " + "; ".join(
        f"{day_words(day_of(each.ready_at, reading.zone), today)}: {listed(each.customers, 3)}"
        for each in sowing.sowing.serves
    )
