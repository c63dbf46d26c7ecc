"""The weigh-in as it stands: what is left to cut, what was cut today, and how the batches did."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.known import Known, tray_now
from logbook.actions.trays.weighing import mould_seen
from logbook.growing.crops.yields import Expected
from logbook.growing.days import day_bounds
from logbook.growing.trays.forecast import tray_window
from logbook.growing.trays.weighing import against_usual
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import StoredEntry, read_entries, read_root
from logbook.store.reads.trays import read_trays, read_trays_of_batch
from logbook.store.reads.weights import read_weights

PROMPT = timedelta(minutes=1)
"""How long after a cut its weight is taken for written at once."""


@dataclass(frozen=True, slots=True)
class TillTray:
    """A growing tray that may be cut. `before` is what part cuts gave so far, in g.

    `mould` reminds of mould seen on it, "" for none.
    """

    number: int
    batch: str
    crop: str
    place: str
    day_number: int
    before: float
    expected: Expected | None
    mould: str = ""


@dataclass(frozen=True, slots=True)
class TillLine:
    """One weigh-in of today. `grams` is what the scale said for all its trays.

    `total` adds what part cuts of the same trays gave before; `per_seed` is total g per g of seed.
    `told` is when it was cut, where it was written later than that.
    """

    entry: int
    numbers: tuple[int, ...]
    crop: str
    batch: str
    day_number: int
    grams: float
    total: float
    part: bool
    per_seed: float | None
    against: str
    told: datetime | None


@dataclass(frozen=True, slots=True)
class BatchCut:
    """How the trays of a batch did that are cut and weighed, out of all not discarded."""

    batch: str
    crop: str
    cut: int
    trays: int
    grams: float
    per_seed: float | None
    against: str


@dataclass(frozen=True, slots=True)
class Till:
    """`chosen` and `ready` are the numbers left to cut: those asked for, and all others ready."""

    chosen: tuple[int, ...]
    ready: tuple[int, ...]
    trays: dict[int, TillTray]
    lines: tuple[TillLine, ...]
    batches: dict[str, BatchCut]

    @property
    def left(self) -> tuple[int, ...]:
        """The numbers left to cut, those asked for first."""
        return self.chosen + self.ready

    @property
    def grams(self) -> float:
        """What was cut today, in g."""
        return sum(line.grams for line in self.lines)


def till(book: Book, wanted: Sequence[int] = ()) -> Till:
    """The weigh-in of today; `wanted` are the trays to cut first, in that order.

    What is usual rests on trays cut before today, so that it stays the same all day.
    """
    with book.reading() as reading:
        now, places = reading.now, reading.places
        start, end = day_bounds(reading.today, reading.zone)
        growing = [each for each in reading.live if each.state.status == "growing"]
        entries = [
            entry
            for entry in read_entries(reading, start, end, kind="weigh")
            if entry.struck_by is None
        ]
        entries.sort(key=lambda entry: _root(reading, entry))
        ids = {tray for entry in entries for tray in entry.tray_ids}
        weighed = reading.folded(read_trays(reading, ids))
        versions = {each.stored.version_id for each in (*growing, *weighed)}
        usual = reading.expected(versions, before=start)
        lines = _lines(reading, entries, weighed, usual)
        batches = {each.stored.batch_id: usual[each.stored.version_id] for each in weighed}
        cuts = {
            str(batch): _batch_cut(reading, batch, expected) for batch, expected in batches.items()
        }
    trays, ready = {}, []
    parted = {number for line in lines if line.part for number in line.numbers}
    seen = [tray_now(each, places.by_id) for each in growing]
    for tray, each in sorted(
        zip(seen, growing, strict=True), key=lambda pair: (pair[0].walk, pair[0].number)
    ):
        window = tray_window(each.template, each.state, now)
        hours = reading.hours_of(each.state.place)
        trays[tray.number] = TillTray(
            tray.number,
            tray.batch,
            each.template.label(),
            tray.place,
            hours.day_number(each.state.sown_at or now, now),
            each.state.grams or 0.0,
            usual[each.stored.version_id],
            mould_seen(reading, each),
        )
        if window is not None and window.state(now, hours, each.state.sign_at) != "soon":
            ready.append(tray.number)
    chosen = tuple(number for number in wanted if number in trays and number not in parted)
    rest = [number for number in ready if number not in chosen]
    rest.sort(key=lambda number: number in parted)  # a tray cut in part today comes last
    return Till(chosen, tuple(rest), trays, lines, cuts)


def _root(reading: Reading, entry: StoredEntry) -> int:
    """The entry's place in the order: a replacement keeps that of what it replaces."""
    return entry.id if entry.replaces is None else read_root(reading, entry.id)


def _per_seed(total: float, trays: Sequence[Known]) -> float | None:
    seeds = [tray.seed_grams for tray in trays if tray.seed_grams]
    return total / sum(seeds) if seeds and len(seeds) == len(trays) else None


def _lines(
    reading: Reading,
    entries: Sequence[StoredEntry],
    weighed: Sequence[Known],
    usual: dict[int, Expected | None],
) -> tuple[TillLine, ...]:
    weights = read_weights(reading, [entry.id for entry in entries])
    deeds = read_deeds(reading, [each.stored.id for each in weighed])
    known = {each.stored.id: each for each in weighed}
    lines = []
    for entry in entries:
        rows = weights.get(entry.id, [])
        trays = [known[row.tray_id] for row in rows if row.tray_id in known]
        if not trays:
            continue
        first, part, root = trays[0], rows[0].part, _root(reading, entry)
        total = sum(
            deed.grams or 0.0
            for each in trays
            for deed in deeds.get(each.stored.id, ())
            if deed.kind == "weigh" and deed.entry <= root
        )
        alike = len({each.stored.version_id for each in trays}) == 1
        crops = dict.fromkeys(each.template.label() for each in trays)
        sown = first.state.sown_at or entry.at
        usual_of_all = usual[first.stored.version_id] if alike and not part else None
        lines.append(
            TillLine(
                entry.id,
                tuple(each.stored.number for each in trays),
                ", ".join(crops),
                str(first.stored.batch_id),
                reading.hours_of(first.state.place).day_number(sown, entry.at),
                sum(row.grams for row in rows),
                total,
                part,
                _per_seed(total, trays),
                against_usual(total / len(trays), usual_of_all),
                entry.at if entry.written_at - entry.at > PROMPT else None,
            )
        )
    return tuple(lines)


def _batch_cut(reading: Reading, batch: int, expected: Expected | None) -> BatchCut:
    every = reading.folded(read_trays_of_batch(reading, batch))
    kept = [each for each in every if each.state.status not in ("discarded", "void")]
    cut = [each for each in kept if each.state.status == "cut" and each.state.grams is not None]
    total = sum(each.state.grams or 0.0 for each in cut)
    return BatchCut(
        str(batch),
        every[0].template.label(),
        len(cut),
        len(kept),
        total,
        _per_seed(total, cut),
        against_usual(total / len(cut), expected) if cut else "",
    )
