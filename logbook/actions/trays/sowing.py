"""Sowing a batch, now, in the past or planned ahead."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.actions.clocking import AHEAD, likely_now
from logbook.actions.crops.templates import find_template
from logbook.actions.planning.ready import count_back, ready_notices
from logbook.actions.reading import Reading
from logbook.actions.seed.drawing import lots_drawn
from logbook.actions.trays.dark import sown_in_the_dark
from logbook.actions.trays.numbering import by_batch, free_numbers
from logbook.actions.trays.placing import Spot, place_trays, shelves_named, spread_for
from logbook.actions.writing import LONGEST_AGO, Act
from logbook.growing.crops.seed_lots import SeedLot, lots_grams
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.crops.unsafe import refuse_unsafe
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import LARGEST, in_batch, numbers_words, waiting
from logbook.growing.quantities import SEED, TRAYS
from logbook.growing.room.places import Spread
from logbook.growing.trays.forecast import PlannedChange, Window, changes_ahead, cut_window
from logbook.growing.trays.soaking import Soaked, check_soaked, past_soak, soak_notice
from logbook.store.reads.batches import next_batch
from logbook.store.reads.templates import StoredTemplate, read_templates
from logbook.store.reads.trays import live_numbers
from logbook.text import Refused, clean_name, clean_note, plural
from logbook.ways import Way

FARTHEST = timedelta(days=366)
ODD_SEED = 4.0
"""How many times more or less seed than the template's is asked about."""


@dataclass(frozen=True, slots=True)
class SowDraft:
    """What the grower asks for. Numbers empty: the book gives them. `at` None: now.

    `grams` is dry seed per tray; `colours` one mark for all trays or one for each; `soak_at` when
    a plan's seed is to go into the water, `soaked` what is said of a soak that was or is done.
    `ready` is when it is wanted: soak, sowing, changes and cut are counted back from it.
    A soak of which nothing is said is not written. `lot` is one lot, or several with their grams; empty
    the bag that was bought first, NO_LOT none.
    """

    template: str
    trays: int | None = None
    at: datetime | None = None
    plan: bool = False
    place: str = ""
    numbers: tuple[int, ...] = ()
    lot: str = ""
    grams: float | None = None
    colours: tuple[str, ...] = ()
    soak_at: datetime | None = None
    soaked: Soaked | None = None
    note: str = ""
    ready: datetime | None = None


@dataclass(frozen=True, slots=True)
class SowPlan:
    """What a draft comes to, before it is written. Times in UTC, seed in g for all trays."""

    keys: ClassVar = """
        trays=numbers soak_at sow_at changes cut seed_grams
        cut_at seed_grams_per_tray=grams_per_tray lots planned places notices
    """

    template: CropTemplate
    numbers: tuple[TrayNumber, ...]
    planned: bool
    """Whether it is still to come."""
    soak_at: datetime | None
    """When the soak began, or by plan will begin; null where the seed is sown dry."""
    sow_at: datetime
    changes: tuple[PlannedChange, ...]
    cut: Window
    grams_per_tray: float | None
    places: tuple[str, ...]
    """Where each tray is, in the order of the trays."""
    notices: tuple[str, ...]
    """What is worth knowing, a sentence each."""
    lots: tuple[SeedLot, ...] = ()
    """The seed lots, several with the grams of each."""
    asks_soak: bool = False
    """Whether it has to be asked how the seed was soaked."""
    cut_at: datetime | None = None
    """When to cut for what it is wanted for; null where that was not said."""

    @property
    def seed_grams(self) -> float | None:
        """Seed for all trays, in g."""
        each = self.grams_per_tray
        return None if each is None else round(each * len(self.numbers), 3)


@dataclass(frozen=True, slots=True)
class Sown:
    """A batch as it was written, or would be: `batch_id` 0."""

    keys: ClassVar = "batch *plan"

    batch_id: int
    plan: SowPlan

    @property
    def batch(self) -> str:
        """The batch's number; empty where nothing was written."""
        return str(self.batch_id or "")

    @property
    def notices(self) -> tuple[str, ...]:
        """What is worth knowing, a sentence each."""
        return self.plan.notices


@dataclass(frozen=True, slots=True)
class _Ready:
    plan: SowPlan
    found: StoredTemplate
    spots: Sequence[tuple[int, int] | None]
    shelf: int | None
    soaked_at: datetime | None
    grams: float | None


def preview(book: Book, draft: SowDraft) -> SowPlan:
    """What a draft comes to, nothing written; raises Refused as sow() would."""
    with book.reading() as reading:
        return _ready(reading, draft).plan


def check_within(reading: Reading, draft: SowDraft, found: StoredTemplate) -> None:
    """Raise Refused where sow_within() would, nothing written."""
    clean_note(draft.note)
    _ready(reading, draft, found)


def _ready(reading: Reading, draft: SowDraft, found: StoredTemplate | None = None) -> _Ready:
    now = likely_now(reading)
    known = read_templates(reading) if found is None or draft.ready else []
    found = found or find_template(draft.template, known)
    template = found.template
    refuse_unsafe(template.crop, template.name)
    wanted = shelves_named(reading, draft.place)
    back = None
    if draft.ready is not None:
        _check_ready(draft)
        hours = reading.hours_of(wanted[0].id if wanted else None)
        back = count_back(reading, template, draft.ready, now, hours, known)
    at = back.sow_at if back else draft.at or _from_soak(draft, template, now) or now
    soaked = draft.soaked
    soaked_at = now if soaked == "now" else None if soaked == "dry" else soaked
    if not now - LONGEST_AGO <= at <= now + FARTHEST:
        far = "more than two years ago" if at < now else "more than a year ahead"
        raise Refused(f"Sown at {reading.when(at)}? That is {far}.", about="at")
    planned = draft.plan or at > now or draft.soak_at is not None
    if draft.plan and at < now:
        raise Refused("A plan must be for later; what was sown already needs none.")
    later = planned and soaked_at is None and by_batch(reading, at)
    numbers = _numbers(reading, draft, later)
    grams = draft.grams
    each = template.seed_for(grams)
    lots, spelled = lots_drawn(
        reading, draft.lot, template.label(), each and each * len(numbers),
        now=not planned or soaked_at is not None,
    )  # fmt: skip
    if grams is None and (taken := lots_grams(lots)) is not None:
        grams = taken / len(numbers)
    if grams is not None:
        SEED.checked(grams, reading.units, "grams")
    path = reading.places.path
    soak_at = soaked_at
    if planned and template.soak_seconds and soaked is None:
        soak_at = at - timedelta(seconds=template.soak_seconds)
    _check_plan(draft, soak_at, now)
    if soaked_at is not None:
        check_soaked(template, soaked_at, at)
        if soaked_at > now + AHEAD:
            raise Refused(
                f"Soaked since {reading.when(soaked_at)}? That hasn't come yet.", "soaked"
            )
    if planned:
        shelf, spread = wanted[0].id if wanted else None, Spread((None,) * len(numbers), ())
        paths = [path(shelf)] * len(numbers)
    else:
        shelf, spread = None, spread_for(reading, wanted, template, len(numbers))
        paths = [path(spot[0]) if spot else "" for spot in spread.spots]
    stand = [shelf if spot is None else spot[0] for spot in spread.spots]
    lit = template.stages[0].light == "lit"
    unsaid = planned and soaked is None
    past = past_soak(template, at, now, reading.zone) if unsaid else ""
    plan = SowPlan(
        template=template,
        numbers=numbers,
        planned=planned,
        soak_at=soak_at,
        sow_at=at,
        changes=back.changes if back else tuple(changes_ahead(template, 0, at)),
        cut=back.cut if back else cut_window(template, 0, at),
        cut_at=back.cut_at if back else None,
        grams_per_tray=template.seed_for(grams),
        lots=lots,
        places=tuple(paths),
        notices=(
            *spread.notices,
            *spelled,
            *(sown_in_the_dark(reading, numbers, stand) if lit else ()),
            *_odd_seed(grams, template, reading.units),
            *_odd_lots(lots, grams, len(numbers), reading.units),
            *filter(None, (soak_notice(template, soaked_at, at), past)),
            *ready_notices(reading, back),
        ),
        asks_soak=not planned and soaked is None and template.soak_seconds > 0,
    )
    return _Ready(plan, found, spread.spots, shelf, soaked_at, grams)


def _from_soak(draft: SowDraft, template: CropTemplate, now: datetime) -> datetime | None:
    """When seed can be sown whose soak is planned or has begun; None where a sowing is not ahead."""
    begun = draft.soaked if isinstance(draft.soaked, datetime) and draft.plan else draft.soak_at
    if draft.soaked == "now":
        begun = now
    if begun is None:
        return None
    if not template.soak_seconds:
        raise Refused(f"{template.label()} has no soak in its template; say when to sow it.", "at")
    return begun + timedelta(seconds=template.soak_seconds)


def _check_ready(draft: SowDraft) -> None:
    """Raise Refused where the times that are to be counted back are said too."""
    if draft.at is not None or draft.soak_at is not None:
        raise Refused("Say when to sow or when it is wanted; the other follows from it.", "ready")
    if isinstance(draft.soaked, datetime) or draft.soaked == "now":
        raise Refused("With a soak that has begun, say when to sow it.", "ready")


def _check_plan(draft: SowDraft, soak_at: datetime | None, now: datetime) -> None:
    """Raise Refused where the soak that a plan is given is not ahead, or not the template's."""
    if draft.soak_at is None:
        return
    if draft.soak_at <= now or draft.soaked is not None:
        raise Refused(f"That soak has begun already; {Way.SOAKED_AT} says since when.", "soak_at")
    if draft.soak_at != soak_at:
        raise Refused(
            "The template's soak ends at another time than the sowing; give one of the two.",
            "soak_at",
        )


def _odd_seed(grams: float | None, template: CropTemplate, units: Units) -> tuple[str, ...]:
    usual = template.seed_grams
    if grams is None or not usual or 1 / ODD_SEED < grams / usual < ODD_SEED:
        return ()
    given, wanted = grams_words(grams, units), grams_words(usual, units)
    return (f"{given} of seed per tray, where the template has {wanted}: is that right?",)


def _odd_lots(
    lots: Sequence[SeedLot], grams: float | None, trays: int, units: Units
) -> tuple[str, ...]:
    taken = lots_grams(lots)
    if taken is None or grams is None or abs(taken - grams * trays) <= taken / 10:
        return ()
    all_trays, said = grams_words(grams * trays, units), grams_words(taken, units)
    return (f"The lots give {said} of seed, the trays take {all_trays}: is that right?",)


def _numbers(reading: Reading, draft: SowDraft, later: bool) -> tuple[int, ...]:
    count = draft.trays if draft.trays is not None else len(draft.numbers)
    TRAYS.checked(count, "trays")
    if not draft.numbers and later:
        return tuple(waiting(next_batch(reading), count))
    if not draft.numbers:
        return free_numbers(reading, count)
    if len(draft.numbers) != count:
        raise Refused(
            f"{plural(len(draft.numbers), 'number')} for {plural(count, 'tray')}: "
            f"{numbers_words(draft.numbers)}. Give as many numbers as trays.",
            about="numbers",
        )
    if odd := [number for number in draft.numbers if not 0 < number <= LARGEST]:
        raise Refused(f"New trays take plain numbers, not {numbers_words(odd)}.", about="numbers")
    taken = live_numbers(reading)
    double = [number for number in draft.numbers if number in taken]
    if double:
        free = free_numbers(reading, count)
        raise Refused(
            f"In use already: {numbers_words(double)}. Free: {numbers_words(free)}.",
            about="numbers",
        )
    return draft.numbers


def sow(book: Book, draft: SowDraft) -> Sown:
    """Write a batch: planned when its time lies ahead, else sown then, with the soak that is said.

    Raises Refused for an unknown template or place, a number in use, an impossible count or time.
    """
    with book.writing() as act:
        return sow_within(act, draft)


def sow_within(
    act: Act,
    draft: SowDraft,
    found: StoredTemplate | None = None,
    stand: Sequence[tuple[int, int] | None] | None = None,
) -> Sown:
    """As sow(), as part of an act.

    `found` is the template version to sow from, retired or not (else the draft's, by name); `stand`
    is (shelf id, slot) for each tray, where that is settled already.
    """
    note = clean_note(draft.note)
    colours = tuple(clean_name(each, "colour mark") for each in draft.colours if each.strip())
    ready = _ready(act.reading, draft, found)
    plan = ready.plan
    if len(colours) not in (0, 1, len(plan.numbers)):
        raise Refused("Give one colour mark for all trays, or one for each.", about="colours")
    if len(colours) < 2:
        colours = (*colours, "")[:1] * len(plan.numbers)
    trays = (
        {"number": number, "colour": colour}
        for number, colour in zip(plan.numbers, colours, strict=True)
    )
    batch_id, ids = write_batch(
        act, trays, plan.lots, version_id=ready.found.version_id, grams_per_tray=ready.grams,
        planned_for=plan.sow_at if plan.planned else None,
    )  # fmt: skip
    if plan.planned:
        entry = act.entry("plan", ids, act.now, batch=batch_id, note=note)
        spots: Sequence[Spot | None] = ((ready.shelf, None),) * len(ids)
    else:
        entry = act.entry("sow", ids, plan.sow_at, batch=batch_id, chore="sow", note=note)
        spots = ready.spots if stand is None else stand
    if ready.soaked_at is not None:
        act.entry("soak", ids, ready.soaked_at, batch=batch_id, chore="soak")
    place_trays(act, entry, ids, spots)
    return Sown(
        batch_id, replace(plan, numbers=tuple(in_batch(each, batch_id) for each in plan.numbers))
    )


def write_batch(
    act: Act, trays: Iterable[dict[str, Any]], lots: Iterable[SeedLot], *, version_id: int,
    **batch: Any,
) -> tuple[int, list[int]]:  # fmt: skip
    """Write a batch of lots and its trays, by their columns; returns its id and theirs."""
    batch_id = write_lots(act, lots, version_id=version_id, **batch)
    of = {"batch_id": batch_id, "version_id": version_id}
    numbered = ({**each, "number": in_batch(each["number"], batch_id)} for each in trays)
    return batch_id, [act.add("tray", **{"live": True, **of, **each}) for each in numbered]


def write_lots(act: Act, lots: Iterable[SeedLot], **batch: Any) -> int:
    """Write a batch by its columns, with the lots that it is sown from; returns its id."""
    batch_id = act.add("batch", **batch)
    for position, each in enumerate(lots):
        act.add("batch_lot", batch_id=batch_id, position=position, lot=each.lot, grams=each.grams)
    return batch_id
