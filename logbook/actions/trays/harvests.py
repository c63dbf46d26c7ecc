"""Harvests from before the book began: batches, trays and weights of the past, in one act."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from statistics import mean, median

from logbook.actions.book import Book
from logbook.actions.crops.templates import write_version
from logbook.actions.reading import Reading
from logbook.actions.trays.sowing import write_batch
from logbook.actions.writing import Act
from logbook.growing.crops.seed_lots import lots_from
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.crops.yields import Meant, expect, luck_of_harvest
from logbook.growing.days import DAY, day_of, day_words, wall
from logbook.growing.numbers import LARGEST, PAST
from logbook.growing.quantities import CUT, TRAYS
from logbook.growing.trays.weighing import question, share_out
from logbook.store.reads.batches import read_past_cuts
from logbook.store.reads.templates import StoredTemplate, read_templates
from logbook.store.reads.trays import last_past_number, live_numbers
from logbook.text import Refused, fold, nearest, plural

MOST_DAYS = 365


@dataclass(frozen=True, slots=True)
class Harvest:
    """Trays of a crop, sown one day and cut on another, with all their grams, by their `line`."""

    line: int
    crop: str
    sown: date
    cut: date
    trays: int
    grams: float
    lot: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Taken:
    """What was, or would be, taken in. `made` are the templates made for unknown crops."""

    harvests: int
    trays: int
    grams: float
    made: tuple[str, ...]
    act_id: int | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a line."""

    line: int
    words: str


@dataclass(frozen=True, slots=True)
class HarvestsRead:
    """Past harvests of a file: what of it is, or could be, in the book."""

    written: bool
    """False where it was only asked, or where a line is wrong."""
    harvests: int
    trays: int
    grams: float
    templates_made: tuple[str, ...]
    columns_left_out: tuple[str, ...]
    faults: tuple[Fault, ...]
    odd: tuple[Fault, ...]
    """Lines that are taken, but hard to believe."""


def check_harvests(
    book: Book, harvests: Sequence[Harvest], *, make_templates: bool = False
) -> list[Fault]:
    """What is wrong with harvests, line by line; nothing is written."""
    there, faults = {}, []
    with book.reading() as reading:
        known, today, zone = _Known(reading), reading.today, reading.zone
        for past in read_past_cuts(reading):
            days = day_of(past.sown_at, zone), day_of(past.cut_at, zone)
            there[past.template_id, *days, past.trays, round(past.grams, 1)] = past.batch_id
    for harvest in harvests:
        try:
            _check(harvest, today)
            found = known.template(harvest.crop)
            if found is None and not make_templates:
                hint = nearest(harvest.crop, known.names)
                raise Refused(f'there is no crop template "{harvest.crop[:60]}".{hint}')
            if found is not None:
                written = round(sum(_shares(harvest)), 1)
                batch = there.get((found.id, harvest.sown, harvest.cut, harvest.trays, written))
                if batch is not None:
                    raise Refused(f"it is in the book already, as batch {batch}.")
        except Refused as refused:
            faults.append(Fault(harvest.line, str(refused)))
    return faults


def odd_harvests(book: Book, harvests: Sequence[Harvest]) -> list[Fault]:
    """What is hard to believe of harvests that can be taken in, line by line."""
    with book.reading() as reading:
        known = _Known(reading)
    odd = []
    for harvest in harvests:
        found = known.template(harvest.crop)
        each = harvest.grams / max(1, harvest.trays)
        usual = None if found is None else expect([Meant(luck_of_harvest(found.template, ()), 0)])
        asked = question(each, usual, book.units)
        if asked:
            odd.append(Fault(harvest.line, f"per tray: {asked}"))
    return odd


def same_lines(harvests: Sequence[Harvest]) -> list[Fault]:
    """The lines that say the same as an earlier one."""
    first: dict[Harvest, int] = {}
    return [
        Fault(
            one.line,
            f"the same as line {before}: {one.crop}, cut {one.cut}, {plural(one.trays, 'tray')}",
        )
        for one in harvests
        if (before := first.setdefault(replace(one, line=0), one.line)) != one.line
    ]


def take_harvests(
    book: Book, harvests: Sequence[Harvest], source: str, *, make_templates: bool = False,
    tell: Callable[[int, int], None] = lambda _done, _whole: None,
) -> Taken:  # fmt: skip
    """Write harvests of the past as batches, trays and weights, all of them or none.

    The times are the start of the room's day, because only the days are known. The trays get
    numbers of their own from PAST on, which no sowing gives. `source` names the file, for the
    notes. A single undo takes all of it back. Raises Refused for what check_harvests() finds.
    """
    faults = check_harvests(book, harvests, make_templates=make_templates)
    if faults:
        raise Refused(f"Line {faults[0].line}: {faults[0].words}")
    if not harvests:
        raise Refused("There is no harvest in it.")
    with book.writing() as act:
        made = _make_missing(act, harvests, source) if make_templates else []
        known = _Known(act.reading)
        numbers = _past_numbers(act.reading)
        for done, harvest in enumerate(harvests, 1):
            found = known.template(harvest.crop)
            assert found is not None  # noqa: S101 - checked, or made just now
            _write(act, harvest, found.version_id, numbers, source)
            tell(done, len(harvests))
        return Taken(
            len(harvests), sum(harvest.trays for harvest in harvests),
            sum(harvest.grams for harvest in harvests), tuple(made), act.act_id,
        )  # fmt: skip


class _Known:
    def __init__(self, reading: Reading) -> None:
        stored = sorted(read_templates(reading), key=lambda each: not each.retired)
        labelled = {fold(each.template.label()): each for each in stored}
        self.by_name = labelled | {fold(each.template.name): each for each in stored}

    @property
    def names(self) -> list[str]:
        """The names of the templates."""
        return [each.template.name for each in self.by_name.values()]

    def template(self, crop: str) -> StoredTemplate | None:
        """The template of that name, retired or not."""
        return self.by_name.get(fold(crop))


def _check(harvest: Harvest, today: date) -> None:
    if harvest.cut > today:
        raise Refused(f"the cut, {day_words(harvest.cut, today)}, is still to come.")
    if harvest.cut <= harvest.sown:
        raise Refused(
            f"it was cut on {day_words(harvest.cut, today)}, not after it was sown on "
            f"{day_words(harvest.sown, today)}."
        )
    if (harvest.cut - harvest.sown).days > MOST_DAYS:
        raise Refused("sowing and cut are more than a year apart; check the years.")
    CUT.checked(harvest.grams / TRAYS.checked(harvest.trays))


def _past_numbers(reading: Reading) -> Iterator[int]:
    """Numbers for trays of the past, one after another, never one of a tray in use."""
    last, taken = last_past_number(reading) or PAST - 1, live_numbers(reading)
    while True:
        last = last + 1 if last < LARGEST else PAST
        if last not in taken:
            yield last


def _make_missing(act: Act, harvests: Sequence[Harvest], source: str) -> list[str]:
    known, made = _Known(act.reading), []
    groups: dict[str, list[Harvest]] = {}
    for harvest in harvests:
        if known.template(harvest.crop) is None:
            groups.setdefault(fold(harvest.crop), []).append(harvest)
    for group in groups.values():
        template = template_of_past(group, source)
        write_version(act.writer, template, by=act.by, now=act.now, why=f"from {source}"[:200])
        made.append(template.name)
    return made


def template_of_past(harvests: Sequence[Harvest], source: str) -> CropTemplate:
    """Make a template from nothing but past harvests: one stage, and the cut window they show."""
    days = [(harvest.cut - harvest.sown).days for harvest in harvests]
    grams = [harvest.grams / harvest.trays for harvest in harvests if harvest.grams > 0]
    spelling = Counter(harvest.crop for harvest in harvests).most_common(1)[0][0]
    return CropTemplate(
        name=spelling,
        crop=spelling,
        stages=(Stage("growing", None, light="lit", water="bottom", water_per_day=1),),
        cut=CutWindow(min(days) * DAY, round(median(days) * DAY), max(days) * DAY),
        expected_grams=max(1.0, round(mean(grams), 1)) if grams else None,
        guess=True,
        notes=f"Made from the harvests in {source}: set its stages, seed and soak before you sow.",
    )


def _shares(harvest: Harvest) -> tuple[float, ...]:
    return share_out(harvest.grams, harvest.trays) if harvest.trays > 1 else (harvest.grams,)


def _write(act: Act, harvest: Harvest, version: int, numbers: Iterator[int], source: str) -> None:
    hours = act.reading.hours
    start, zone = hours.start, hours.zone
    sown, cut = wall(harvest.sown, start, zone), min(wall(harvest.cut, start, zone), act.now)
    shares = _shares(harvest)
    gone = {"live": False, "ended_at": cut}
    trays = [{"number": next(numbers), "cut_grams": share, **gone} for share in shares]
    lots = lots_from(harvest.lot, act.reading.units)
    batch, ids = write_batch(act, trays, lots, version_id=version)
    note = f"imported from {source}, line {harvest.line}"
    act.entry("sow", ids, sown, batch=batch, chore="sow", note=note)
    entry = act.entry("weigh", ids, cut, batch=batch, chore="cut", note=harvest.note or note)
    weights = ({"tray_id": tray, "grams": each} for tray, each in zip(ids, shares, strict=True))
    act.put("weight", entry, weights, shared=len(ids) > 1)
