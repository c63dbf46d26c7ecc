"""What is shown: the round, what is due, a page, a tray, a batch, the racks. Nothing is written."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Annotated, ClassVar

from logbook.actions.book import Book
from logbook.actions.entry_words import change_words, done_words
from logbook.actions.reading import Reading
from logbook.actions.trays import Known, tray_now
from logbook.growing.chores import RECURRING, Chore
from logbook.growing.days import day_bounds, day_number, day_of, day_words
from logbook.growing.forecast import (
    Window,
    changes_ahead,
    chores_of_tray,
    tray_window,
)
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.kinds import kind_of
from logbook.growing.life import Status
from logbook.growing.looks import Look, look_words
from logbook.growing.measures import grams_words
from logbook.growing.page_filter import KINDS as FILTERS
from logbook.growing.page_filter import known_kind
from logbook.growing.places import Place
from logbook.growing.round import Round, RoundLine, TrayNow, is_late, make_round
from logbook.growing.water import WaterReading
from logbook.growing.yields import Expected
from logbook.store.reads_batches import batches_instead, read_lots
from logbook.store.reads_entries import StoredEntry, read_entries
from logbook.store.reads_said import read_looks, read_spots
from logbook.store.reads_templates import read_templates, template_of_versions
from logbook.store.reads_trays import read_trays_of_batch
from logbook.store.reads_water import read_water_of
from logbook.store.reads_weights import read_weights, recent_weights
from logbook.store.rows import LARGEST_ID
from logbook.text import Refused, fold, listed, nearest
from logbook.ways import Way


def the_round(book: Book, day: date | None = None) -> Round:
    """Give the round of today, or of a day to come; raise Refused for a day that is past."""
    with book.reading() as reading:
        return _round(reading, day)


def _round(reading: Reading, day: date | None) -> Round:
    now = reading.now
    today = day_of(now, reading.zone)
    if day is not None and day < today:
        raise Refused(
            f"The round of {day_words(day, today)} is past; {Way.PAGE_OF.of(day)} shows what "
            "was done."
        )
    places = reading.places.by_id
    trays = [tray_now(known, places) for known in reading.live]
    return make_round(trays, now, day or today, reading.hours)


@dataclass(frozen=True, slots=True)
class RoundView:
    """The round with what the screen adds: lamp hours by place, signs to cut by batch.

    `after` is the first thing of tomorrow when nothing is left today.
    """

    round: Round
    hours: dict[str, str]
    signs: dict[int, str]
    empty: bool
    after: RoundLine | None = None


def round_view(book: Book) -> RoundView:
    """Give today's round as the screen shows it."""
    with book.reading() as reading:
        every = reading.places
        places = {place.id: place for place in every}
        trays = [tray_now(known, places) for known in reading.live]
    now = book.now()
    today = make_round(trays, now, day_of(now, book.zone), book.hours)
    after = None
    if not today.lines:
        tomorrow = day_of(now, book.zone) + timedelta(days=1)
        lines = make_round(trays, now, tomorrow, book.hours).lines
        after = min(lines, key=lambda line: line.due_at, default=None)
    return RoundView(
        today,
        {place.path: place.hours_words for place in every if place.kind == "shelf"},
        {tray.batch_id: tray.template.sign_to_cut for tray in trays},
        not trays,
        after,
    )


@dataclass(frozen=True, slots=True)
class DueTray:
    """A tray that is or will be ready to cut."""

    keys: ClassVar = """
        tray=number crop day_number from=window.start best=window.best by=window.by state
        expected_grams=expected.grams spread_grams=expected.spread_grams
        rests_on_trays=expected.trays batch place sign_seen mould_seen=mould
    """

    number: TrayNumber
    batch: str
    crop: str
    place: str
    day_number: DayNumber
    window: Window
    state: Annotated[str, ("soon", "ready", "late")]
    sign_seen: bool
    """Whether the crop's ready sign was seen."""
    expected: Expected | None
    mould: bool = False
    """Whether mould stands on it."""


def due(book: Book, days: int = 7) -> list[DueTray]:
    """Give growing trays whose cut window begins within so many days, the first to cut first.

    Those that are best on the same day as one of these come too: a day's sum is of all its trays.
    """
    from logbook.growing.yields import expected_of

    if not 0 <= days <= 366:
        raise Refused(f"{days} days ahead? Give 0 to 366.")
    with book.reading() as reading:
        known = [each for each in reading.live if each.state.status == "growing"]
        places = reading.places.by_id
        templates = template_of_versions(reading, {each.stored.version_id for each in known})
        weights = recent_weights(reading, set(templates.values()))
    now = book.now()
    horizon = day_bounds(day_of(now, book.zone) + timedelta(days=days), book.zone)[1]
    windows = [(each, tray_window(each.template, each.state, now)) for each in known]
    best_days = {
        day_of(window.best, book.zone)
        for each, window in windows
        if window is not None and window.start < horizon and each.state.sign_at is None
    }
    found = []
    for each, window in windows:
        if window is None or each.state.sown_at is None:
            continue
        seen = each.state.sign_at is not None
        if not seen and day_of(window.best, book.zone) not in best_days:
            continue
        place = places.get(each.state.place or 0)
        found.append(
            DueTray(
                each.stored.number,
                str(each.stored.batch_id),
                each.template.label(),
                place.path if place else "",
                day_number(each.state.sown_at, now, book.zone, book.about.first_day),
                window,
                window.state(now, each.state.sign_at),
                seen,
                expected_of(each.template, weights[templates[each.stored.version_id]]),
                each.state.mould_at is not None,
            )
        )
    order = {"late": 0, "ready": 1, "soon": 2}
    found.sort(key=lambda tray: (order[tray.state], tray.window.best, tray.number))
    return found


@dataclass(frozen=True, slots=True)
class DueDay:
    """Grams expected of one crop by its best day."""

    keys: ClassVar = "day crop trays=numbers expected_grams=grams spread_grams"

    day: date
    crop: str
    numbers: tuple[TrayNumber, ...]
    grams: float
    """Of all these trays together."""
    spread_grams: float
    """One standard deviation of the sum."""


@dataclass(frozen=True, slots=True)
class Due:
    """Trays that are or will be ready to cut within so many days, the most pressing first."""

    days: int
    trays: tuple[DueTray, ...]
    by_day: tuple[DueDay, ...]


def due_by_day(book: Book, trays: Sequence[DueTray]) -> list[DueDay]:
    """Add up what is due by day and crop; what is late or ready counts for today."""
    today = book.today()
    groups: dict[tuple[date, str], list[DueTray]] = {}
    for tray in trays:
        best = day_of(tray.window.best, book.zone)
        day = today if tray.sign_seen else max(best, today)
        groups.setdefault((day, tray.crop), []).append(tray)
    days = []
    for (day, crop), group in sorted(groups.items()):
        known = [tray.expected for tray in group if tray.expected is not None]
        spread = sum(each.spread_grams**2 for each in known) ** 0.5
        numbers = tuple(sorted(tray.number for tray in group))
        days.append(DueDay(day, crop, numbers, sum(each.grams for each in known), spread))
    return days


@dataclass(frozen=True, slots=True)
class Line:
    """One entry of the book: what was done or seen, in words and in numbers."""

    keys: ClassVar = """
        id kind at trays by note struck replaced_by replaces words written_at clock_in_doubt
        place=stands grams part *water *look
    """

    id: int
    """The entry's number."""
    kind: str
    """water, look, jot, weigh …"""
    at: datetime
    """When it happened."""
    written_at: datetime
    by: str
    """Who wrote it."""
    trays: tuple[TrayNumber, ...]
    words: str
    note: str
    """The person's own text."""
    struck: bool
    """Whether it was struck; it stays in the record."""
    place: str = ""
    replaced_by: int | None = None
    """The entry in the place of this struck one."""
    replaces: int | None = None
    """The entry whose place this one has taken."""
    clock_in_doubt: bool = False
    """Whether the machine's clock was in doubt when it was written."""
    to: str = ""
    grams: float | None = None
    """Cut weight: of the tray asked for, or of all its trays together."""
    part: bool | None = None
    """Whether more is to be cut from the trays; null where nothing was cut."""
    water: WaterReading | None = None
    look: Look | None = None

    @property
    def stands(self) -> str:
        """Path of the place that it speaks of, or where its trays were put; empty for neither."""
        return self.place or self.to


@dataclass(frozen=True, slots=True)
class Page:
    """A day's entries, oldest first."""

    day: date
    entries: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """Entries that hold what was searched for, oldest first."""

    entries: tuple[Line, ...]


def page(
    book: Book, day: date | None = None, *, tray: int | None = None, crop: str = "", kind: str = ""
) -> list[Line]:
    """Give a day's entries, oldest first, narrowed to a tray number, a crop or a kind.

    Raises:
        Refused: no such tray, no crop template with that in its name, no such kind.
    """
    start, end = day_bounds(day or book.today(), book.zone)
    kinds = FILTERS[known_kind(kind)] if kind else ()
    with book.reading() as reading:
        tray_id = _tray_id(reading, tray)
        _known_crop(reading, crop)
        entries = read_entries(reading, start, end, tray_id=tray_id, crop_key=fold(crop))
        entries = [entry for entry in entries if not kinds or entry.kind in kinds]
        if kinds == FILTERS["air"]:
            return _lines(reading, entries)
        from logbook.actions.room_words import without_feeds

        entries, fed = without_feeds(reading, entries)
        lines = _lines(reading, entries, name_lots=True)
        return [
            replace(line, words=f"air: {fed[line.id]}") if line.id in fed else line
            for line in lines
        ]


def search(
    book: Book, words: str, most: int = 200, *, tray: int | None = None, crop: str = ""
) -> list[Line]:
    """Give the newest entries that hold all the words, oldest first; case and order do not matter.

    They are looked for, as parts of words too, in notes, in what looks say (mould, where, stems,
    signs), and in the seed lots of sowings.
    """
    wanted = fold(words)
    if not wanted:
        raise Refused("What to look for? Write a word.")
    with book.reading() as reading:
        entries = read_entries(
            reading,
            tray_id=_tray_id(reading, tray),
            crop_key=fold(crop),
            words=wanted,
            newest=most,
        )
        return _lines(reading, entries, name_lots=True)


def _known_crop(reading: Reading, crop: str) -> None:
    names = [each.template.name for each in read_templates(reading)] if crop else []
    if crop and not any(fold(crop) in fold(name) for name in names):
        raise Refused(f'No crop template has "{crop[:40]}" in its name.{nearest(crop, names)}')


def _tray_id(reading: Reading, number: int | None) -> int | None:
    if number is None:
        return None
    return reading.trays([number], live=False)[0].stored.id


def _lines(
    reading: Reading,
    entries: Sequence[StoredEntry],
    tray_id: int | None = None,
    *,
    name_lots: bool = False,
) -> list[Line]:
    from logbook.actions.room_words import room_words, water_given

    ids = [entry.id for entry in entries]
    looks = read_looks(reading, ids)
    weights = read_weights(reading, ids)
    measured = read_water_of(reading, ids)
    water = water_given(reading, measured)
    room = room_words(reading, entries)
    spots = read_spots(reading, ids)
    places = {place.id: place.path for place in reading.places}
    changes = change_words(reading, entries)
    lots: dict[int, str] = {}
    if name_lots:
        sown = [entry.batch_id for entry in entries if "lot" in kind_of(entry.kind).carries]
        lots = read_lots(reading, [each for each in sown if each is not None])
    lines = []
    for entry in entries:
        extra, to = "", ""
        grams: float | None = None
        part: bool | None = None
        if entry.id in looks:
            extra = look_words(looks[entry.id], reading.units)
        elif entry.id in weights:
            rows = weights[entry.id]
            grams, part = sum(row.grams for row in rows), rows[0].part
            total = grams_words(grams, reading.units)
            own = [row.grams for row in rows if row.tray_id == tray_id]
            if rows[0].shared and own:
                grams = own[0]
                extra = f"{grams_words(grams, reading.units)}, shared out of {total}"
            else:
                extra = f"{total} together" if rows[0].shared else total
            if part:
                extra += ", part cut"
        elif entry.id in room:
            extra = room[entry.id]
        elif entry.id in water:
            extra = water[entry.id]
        elif entry.id in spots:
            to = ", ".join(
                sorted(
                    {places[each.place_id] for each in spots[entry.id] if each.place_id is not None}
                )
            )
            extra = f"{kind_of(entry.kind).puts} {to}" if to else ""
            if entry.batch_id in lots:
                extra = f"from lot {lots[entry.batch_id]} {extra}".rstrip()
        lines.append(
            Line(
                entry.id,
                entry.kind,
                entry.at,
                entry.written_at,
                entry.by,
                entry.trays,
                done_words(entry, extra, changes)
                + (", clock in doubt" if entry.clock_in_doubt else ""),
                entry.note,
                entry.struck_by is not None,
                places.get(entry.place_id or 0, ""),
                entry.replaced_by,
                entry.replaces,
                entry.clock_in_doubt,
                to,
                grams,
                part,
                measured.get(entry.id),
                looks.get(entry.id),
            )
        )
    return lines


@dataclass(frozen=True, slots=True)
class Ahead:
    """Something that will happen to trays.

    `chore` names what can be done today, '' for what comes later or asks nothing.
    """

    keys: ClassVar = "at words chore=of today late trays"

    at: datetime
    words: str
    chore: str = ""
    late: bool = False
    """Whether it is late, as the round says it."""
    trays: tuple[TrayNumber, ...] = ()
    """On a batch's page: which trays."""
    of: Chore | None = None
    """The chore that it is or belongs to; null for a change that asks nothing of the hands."""

    @property
    def today(self) -> bool:
        """Whether it can be done today."""
        return bool(self.chore)


@dataclass(frozen=True, slots=True)
class TrayPage:
    """One tray: what happened, and what will."""

    keys: ClassVar = """
        tray=tray.number batch=tray.batch crop=tray.template.label place status stage day_number
        mould_seen=tray.mould_seen grams grams_per_gram_seed past ahead from=window.start
        best=window.best by=window.by expected_grams=expected.grams
        spread_grams=expected.spread_grams rests_on_trays=expected.trays lot=tray.lot
        mark=tray.colour seed_grams=tray.seed_grams batch_trays=batch_numbers
    """

    tray: TrayNow
    place: str
    """Empty when it has none."""
    status: Status
    stage: str
    """The stage's name; empty outside one."""
    day_number: DayNumber | None
    past: tuple[Line, ...]
    ahead: tuple[Ahead, ...]
    """What will happen if nothing else does."""
    window: Window | None
    grams: float | None
    """What was cut, g."""
    grams_per_gram_seed: float | None
    expected: Expected | None
    batch_numbers: tuple[TrayNumber, ...]
    """All trays of its batch, itself too."""


def tray_page(book: Book, number: int) -> TrayPage:
    """Give the page of the live tray with this number, or of the newest that had it."""
    with book.reading() as reading:
        known = reading.trays([number], live=False)[0]
        return _tray_page(reading, known)


def _tray_page(reading: Reading, known: Known) -> TrayPage:
    from logbook.growing.yields import expected_of

    places = reading.places.by_id
    tray = tray_now(known, places)
    state, template = known.state, known.template
    entries = read_entries(reading, tray_id=known.stored.id)
    templates = template_of_versions(reading, [known.stored.version_id])
    template_id = templates[known.stored.version_id]
    expected = expected_of(template, recent_weights(reading, [template_id])[template_id])
    batch = tuple(each.number for each in read_trays_of_batch(reading, known.stored.batch_id))
    seed = tray.seed_grams
    return TrayPage(
        tray=tray,
        place=tray.place,
        status=state.status,
        stage=template.stages[state.stage].name if state.sown_at else "",
        day_number=_day_number(known, reading),
        past=tuple(_lines(reading, entries, known.stored.id)),
        ahead=tuple(_ahead(known, reading)),
        window=tray_window(template, state, reading.now),
        grams=state.grams,
        grams_per_gram_seed=round(state.grams / seed, 4)
        if state.grams is not None and seed
        else None,
        expected=expected,
        batch_numbers=batch,
    )


def _day_number(known: Known, reading: Reading) -> int | None:
    """Give the day number of today, or of the day on which the tray ended; None before sowing."""
    sown = known.state.sown_at
    if sown is None:
        return None
    until = known.state.ended_at or reading.now
    return day_number(sown, max(until, sown), reading.zone, reading.about.first_day)


def _ahead(known: Known, reading: Reading) -> list[Ahead]:
    """Give what lies ahead of a tray: today's chores, changes of any day, the cut window."""
    state, template, now = known.state, known.template, reading.now
    if not state.live:
        return []
    chores = {
        chore.chore: chore
        for chore in chores_of_tray(template, state, now, reading.today, reading.hours)
    }
    ahead: list[Ahead] = []

    def add(at: datetime, words: str, chore: str = "") -> None:
        due = chores.get(chore)
        late = due is not None and is_late(chore, due.due_at, now, overdue=due.overdue)
        ahead.append(Ahead(at, words, chore if due is not None else "", late, (), chore or None))

    for name in ("soak", "sow", *RECURRING):
        if name in chores:
            add(chores[name].due_at, chores[name].words, name)
    if state.status == "planned" and state.planned_for is not None:
        start, stage = max(state.planned_for, now), 0
        if "sow" not in chores:
            ahead.append(Ahead(state.planned_for, "sow", of="sow"))
    else:
        start, stage = state.stage_since or now, state.stage
    for place, change in enumerate(changes_ahead(template, stage, start, now)):
        words = f"{change.words} (to {template.stages[change.stage].name})"
        if place == 0 and change.chore in chores:
            add(chores[change.chore].due_at, words, change.chore)
        else:
            ahead.append(Ahead(change.at, words, of=change.chore or None))
    window = tray_window(template, state, now)
    if window is not None:
        if state.sign_at is not None and "cut" in chores:
            add(state.sign_at, "cut now: the sign to cut was seen", "cut")
        open_now = window.start <= now
        ahead.append(
            Ahead(
                window.start,
                "may be cut since then" if open_now else "may be cut from then on",
                of="cut",
            )
        )
        if state.sign_at is None:
            add(window.best, "best to cut", "cut")
        over = window.by <= now
        ahead.append(
            Ahead(
                window.by,
                "should have been cut by then" if over else "should be cut by then",
                of="cut",
            )
        )
    return sorted(ahead, key=lambda each: each.at)


def _ahead_of_all(trays: Sequence[Known], reading: Reading) -> list[Ahead]:
    """Give what lies ahead of a batch's trays; those that share it are named together."""
    groups: dict[tuple[datetime, str], list[tuple[int, Ahead]]] = {}
    for known in trays:
        for each in _ahead(known, reading):
            groups.setdefault((each.at, each.words), []).append((known.stored.number, each))
    ahead = [
        replace(group[0][1], trays=tuple(sorted(number for number, _ in group)))
        for group in groups.values()
    ]
    return sorted(ahead, key=lambda each: (each.at, each.trays))


@dataclass(frozen=True, slots=True)
class BatchTray:
    """A tray on its batch's page."""

    keys: ClassVar = """
        tray=tray.number status stage place=tray.place grams=tray.state.grams day_number
        mould_seen=tray.mould_seen
    """

    tray: TrayNow
    status: Status
    stage: str
    """The stage's name; empty outside one."""
    day_number: DayNumber | None


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch: its trays as they stand, what happened to any of them, and the weights."""

    keys: ClassVar = """
        batch template=template_name version lot seed_grams_per_tray=seed_grams sown_at planned_for
        trays=standing cut_grams past ahead cut_trays mean_grams grams_per_gram_seed
        expected_grams=expected.grams spread_grams=expected.spread_grams
        rests_on_trays=expected.trays
    """

    batch: str
    template_name: str
    version: int
    """The template's version that it was sown with."""
    lot: str
    """Seed lot; empty when none was given."""
    seed_grams: float | None
    sown_at: datetime | None
    planned_for: datetime | None
    trays: tuple[TrayNow, ...]
    statuses: tuple[Status, ...]
    stages: tuple[str, ...]
    day_numbers: tuple[int | None, ...]
    past: tuple[Line, ...]
    ahead: tuple[Ahead, ...]
    """What will happen if nothing else does."""
    cut_grams: float
    """All that was cut, g."""
    cut_trays: int
    """Trays that were weighed."""
    expected: Expected | None

    @property
    def standing(self) -> tuple[BatchTray, ...]:
        """Its trays, one by one."""
        each = zip(self.trays, self.statuses, self.stages, self.day_numbers, strict=True)
        return tuple(BatchTray(*one) for one in each)

    @property
    def mean_grams(self) -> float | None:
        """Weight of a tray, in g, over those that were cut to the end and weighed."""
        weights = [
            tray.state.grams
            for tray in self.trays
            if tray.state.status == "cut" and tray.state.grams is not None
        ]
        return sum(weights) / len(weights) if weights else None

    @property
    def grams_per_gram_seed(self) -> float | None:
        """Cut weight per g of seed, over the same trays."""
        mean, seed = self.mean_grams, self.seed_grams
        return None if mean is None or not seed else round(mean / seed, 4)


def batch_page(book: Book, batch: str) -> BatchPage:
    """Give a batch's page by its name."""
    from logbook.growing.yields import expected_of

    if not re.fullmatch(r"\s*\d{1,15}\s*", batch):
        raise Refused(f'"{batch[:20]}" is no batch; batches are numbered, like 12.')
    with book.reading() as reading:
        number = int(batch)
        trays = read_trays_of_batch(reading, number) if number < LARGEST_ID else []
        if not trays:
            now = batches_instead(reading, number) if number < LARGEST_ID else []
            rest = f" Its sowing was corrected: it is batch {listed(now)} now." if now else ""
            raise Refused(f"There is no batch {batch.strip()[:20]}.{rest}")
        known = reading.folded(trays)
        places = reading.places.by_id
        entries = read_entries(reading, batch_id=trays[0].batch_id)
        template = reading.versions([trays[0].version_id])[trays[0].version_id]
        template_id = template_of_versions(reading, [trays[0].version_id])[trays[0].version_id]
        expected = expected_of(template, recent_weights(reading, [template_id])[template_id])
        past = tuple(_lines(reading, entries))
    weights = [each.state.grams for each in known if each.state.grams is not None]
    grams = trays[0].grams_per_tray if trays[0].grams_per_tray is not None else template.seed_grams
    return BatchPage(
        batch=str(trays[0].batch_id),
        template_name=template.name,
        version=template.version,
        lot=trays[0].lot,
        seed_grams=grams,
        sown_at=min((k.state.sown_at for k in known if k.state.sown_at), default=None),
        planned_for=trays[0].planned_for,
        trays=tuple(tray_now(each, places) for each in known),
        statuses=tuple(each.state.status for each in known),
        stages=tuple(
            template.stages[each.state.stage].name if each.state.status == "growing" else ""
            for each in known
        ),
        day_numbers=tuple(_day_number(each, reading) for each in known),
        past=past,
        ahead=tuple(_ahead_of_all(known, reading)),
        cut_grams=sum(weights),
        cut_trays=len(weights),
        expected=expected,
    )


@dataclass(frozen=True, slots=True)
class RackTray:
    """A tray on its shelf."""

    keys: ClassVar = """
        tray=number slot crop day_number due late mould_seen=mould ready mark=colour ready_sign=sign
    """

    number: TrayNumber
    crop: str
    day_number: DayNumber
    slot: int | None
    due: tuple[Chore, ...]
    """Chores that are due now, a cut that is best later today too."""
    ready: Annotated[str, ("soon", "ready", "late")]
    """How it stands to its cut window."""
    late: bool
    """Whether any chore of it is late."""
    colour: str
    sign: str = ""
    """The sign that says that it is ready."""
    mould: bool = False
    """Whether mould stands on it."""


@dataclass(frozen=True, slots=True)
class RackShelf:
    """A shelf and what stands on it."""

    keys: ClassVar = "place=place.path slots=place.slots trays"

    place: Place
    trays: tuple[RackTray, ...]

    @property
    def used(self) -> int:
        """How many trays stand on it."""
        return len(self.trays)


@dataclass(frozen=True, slots=True)
class RackView:
    """A rack (or a room's loose shelves) and its shelves, top first as one walks."""

    keys: ClassVar = "rack=name shelves"

    name: str
    shelves: tuple[RackShelf, ...]


@dataclass(frozen=True, slots=True)
class Racks:
    """All racks, and the trays that stand nowhere."""

    keys: ClassVar = "racks loose=loose.number"

    racks: tuple[RackView, ...]
    loose: tuple[RackTray, ...]
    """Trays that stand nowhere."""


def racks(book: Book) -> Racks:
    """Give the racks with their trays in their slots."""
    with book.reading() as reading:
        known = [each for each in reading.live if each.state.status == "growing"]
        places = reading.places
    on: dict[int | None, list[RackTray]] = {}
    for each in known:
        tray = _rack_tray(book, each)
        on.setdefault(each.state.place, []).append(tray)
    by_id = {place.id: place for place in places}
    groups: dict[str, list[RackShelf]] = {}
    for place in places:
        mine = on.get(place.id, [])
        if place.kind != "shelf" or (place.retired and not mine):
            continue
        above = by_id.get(place.parent or 0)
        trays = tuple(sorted(mine, key=lambda tray: (tray.slot or 10_000, tray.number)))
        groups.setdefault(above.path if above else "", []).append(RackShelf(place, trays))
    shelf_ids = {place.id for place in places if place.kind == "shelf"}
    loose = [tray for place, trays in on.items() if place not in shelf_ids for tray in trays]
    return Racks(
        tuple(RackView(name, tuple(shelves)) for name, shelves in groups.items()),
        tuple(sorted(loose, key=lambda tray: tray.number)),
    )


def _rack_tray(book: Book, known: Known) -> RackTray:
    now = book.now()
    window = tray_window(known.template, known.state, now)
    chores = [
        chore
        for chore in chores_of_tray(
            known.template, known.state, now, day_of(now, book.zone), book.hours
        )
        if not chore.later or chore.chore == "cut"
    ]
    sown = known.state.sown_at or now
    return RackTray(
        known.stored.number,
        known.template.label(),
        day_number(sown, now, book.zone, book.about.first_day),
        known.state.slot,
        tuple(chore.chore for chore in chores),
        window.state(now, known.state.sign_at) if window else "soon",
        any(is_late(each.chore, each.due_at, now, overdue=each.overdue) for each in chores),
        known.stored.colour,
        known.template.sign_to_cut,
        known.state.mould_at is not None,
    )
