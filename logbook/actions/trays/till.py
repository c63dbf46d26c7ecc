"""The weigh-in as it stands: what is left to cut, what was cut today, and how the batches did."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import reduce

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.weighing import mould_seen, untimely_now
from logbook.growing.crops.yields import Expected, Meant, expect
from logbook.growing.days import day_bounds
from logbook.growing.trays.cuts import Harvest
from logbook.growing.trays.life import Deed, after_deed
from logbook.growing.trays.tray_now import GrowingTray, TrayNow
from logbook.growing.trays.weighing import against_usual
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import StoredEntry, read_entries, read_root
from logbook.store.reads.said import read_weights
from logbook.store.reads.trays import read_trays, read_trays_of_batch
from logbook.store.rows import grouped

Usual = Mapping[tuple[int, int], Expected | None]
"""What is expected of a harvest, by template version (id) and number from 1."""
PROMPT = timedelta(minutes=1)
"""How long after a cut its weight is taken for written at once."""


@dataclass(frozen=True, slots=True)
class TillTray(GrowingTray):
    """A tray that may be cut."""

    expected: Expected | None
    """Of its next cut, parts of the same harvest included; null where one was not weighed."""
    mould: str
    """Says that mould was seen on it; '' where none was."""
    untimely: str
    """Why it isn't to be cut yet: it isn't due, or is covered."""


@dataclass(frozen=True, slots=True)
class TillLine:
    """One weigh-in of today. `grams` is what the scale said for all its trays.

    `total` adds what part cuts of the same harvest gave before; `per_seed` is total g per g of seed.
    `told` is when it was cut, where it was written later than that; `harvest` counts from 1.
    """

    entry: int
    numbers: tuple[int, ...]
    crop: str
    batch: str
    day_number: int
    grams: float
    total: float
    part: bool
    keep: bool
    per_seed: float | None
    against: str
    told: datetime | None
    harvest: int


@dataclass(frozen=True, slots=True)
class BatchCut:
    """How the trays of a batch did whose newest harvest is weighed, out of all that can have it."""

    batch: str
    crop: str
    cut: int
    trays: int
    grams: float
    per_seed: float | None
    against: str
    harvest: int


@dataclass(frozen=True, slots=True)
class Till:
    """`chosen` and `ready` are the numbers left to cut: those asked for, and all others ready."""

    chosen: tuple[int, ...]
    ready: tuple[int, ...]
    trays: dict[int, TillTray]
    lines: tuple[TillLine, ...]
    batches: dict[str, BatchCut]
    held: dict[int, str]
    """What trays that grow are on hold for, by number."""

    @property
    def left(self) -> tuple[int, ...]:
        """The numbers left to cut, those asked for first."""
        return self.chosen + self.ready

    @property
    def grams(self) -> float:
        """What was cut today, in g."""
        return sum(line.grams for line in self.lines)


def till(book: Book, wanted: Sequence[int] = ()) -> Till:
    """Today's weigh-in, `wanted` trays first; what is usual is of trays cut before today."""
    with book.reading() as reading:
        start, end = day_bounds(reading.today, reading.zone)
        every = [each for each in reading.live if each.state.status == "growing"]
        growing = [each for each in every if not each.held]
        entries = [
            entry for entry in read_entries(reading, start, end, kind="weigh") if not entry.struck
        ]
        entries.sort(key=lambda entry: _root(reading, entry))
        ids = {tray for entry in entries for tray in entry.tray_ids}
        cut = {each.batch_id for each in read_trays(reading, ids)}
        beside = reading.folded(
            [each for batch in cut for each in read_trays_of_batch(reading, batch)]
        )
        weighed = [each for each in beside if each.id in ids]
        of = {
            (each.stored.version_id, number)
            for each in (*growing, *weighed)
            for number in range(1, each.state.harvest + 1)
        }
        luck = reading.luck(of, before=start)
        usual = {harvest: expect([Meant(each, 0)]) for harvest, each in luck.items()}
        lines = _lines(reading, entries, weighed, usual)
        batches = grouped((each.stored.batch_id, each) for each in beside)
        cuts = {str(batch): _batch_cut(trays, usual) for batch, trays in batches.items()}
        trays = {}
        meant = reading.meant(growing, start, luck)
        for each in sorted(growing, key=lambda tray: (tray.walk, tray.number)):
            trays[each.number] = TillTray.of(
                each,
                expect([meant[each.id]._replace(cut=0.0)]),
                mould_seen(each),
                untimely_now(each, each.now),
            )
    parted = {number for line in lines if line.part for number in line.numbers}
    ready = [each.number for each in trays.values() if each.ready != "soon"]
    chosen = tuple(number for number in wanted if number in trays and number not in parted)
    rest = [number for number in ready if number not in chosen]
    rest.sort(key=lambda number: number in parted)  # a tray cut in part today comes last
    held = {each.number: each.on_hold for each in every if each.held}
    return Till(chosen, tuple(rest), trays, lines, cuts, held)


def _root(reading: Reading, entry: StoredEntry) -> int:
    """The entry's place in the order: a replacement keeps that of what it replaces."""
    return entry.id if entry.replaces is None else read_root(reading, entry.id)


def _per_seed(total: float, trays: Sequence[TrayNow]) -> float | None:
    seeds = [tray.seed_grams for tray in trays if tray.seed_grams]
    return total / sum(seeds) if seeds and len(seeds) == len(trays) else None


def _lines(
    reading: Reading, entries: Sequence[StoredEntry], weighed: Sequence[TrayNow], usual: Usual
) -> tuple[TillLine, ...]:
    weights = read_weights(reading, [entry.id for entry in entries])
    deeds = read_deeds(reading, [each.id for each in weighed])
    known = {each.id: each for each in weighed}
    lines = []
    for entry in entries:
        rows = weights.get(entry.id, [])
        trays = [known[row.tray_id] for row in rows if row.tray_id in known]
        if not trays:
            continue
        first, part, moment = trays[0], rows[0].part, (entry.at, _root(reading, entry))
        harvests = [_harvest_then(deeds.get(each.id, ()), moment) for each in trays]
        total = sum(each.grams for each in harvests)
        of = {
            (each.stored.version_id, harvest.number)
            for each, harvest in zip(trays, harvests, strict=True)
        }
        crops = dict.fromkeys(each.template.label() for each in trays)
        sown = first.state.sown_at or entry.at
        usual_of_all = usual.get(*of) if len(of) == 1 and not part else None
        lines.append(
            TillLine(
                entry.id, tuple(each.number for each in trays), ", ".join(crops),
                str(first.stored.batch_id), first.hours.day_number(sown, entry.at),
                sum(row.grams for row in rows), total, part, rows[0].keep, _per_seed(total, trays),
                against_usual(total / len(trays), usual_of_all),
                entry.at if entry.written_at - entry.at > PROMPT else None, harvests[0].number,
            )
        )  # fmt: skip
    return tuple(lines)


def _harvest_then(deeds: Sequence[Deed], moment: tuple[datetime, int]) -> Harvest:
    """The harvest that a cut was of, as it stood after that cut: at a moment, in an entry."""
    until = [deed for deed in deeds if (deed.at, deed.entry) <= moment]
    until.sort(key=lambda deed: (deed.at, deed.entry))
    none: tuple[Harvest, ...] = ()
    return reduce(after_deed, until, none)[-1]


def _batch_cut(every: Sequence[TrayNow], usual: Usual) -> BatchCut:
    newest = max(
        (one.number for each in every for one in each.state.harvests if one.done), default=1
    )
    cut, waiting, total = [], 0, 0.0
    for each in every:
        mine = [
            one.grams
            for one in each.state.harvests
            if one.number == newest and one.done and one.weighed
        ]
        if mine:
            cut.append(each)
            total += mine[0]
        elif each.state.live or (newest == 1 and each.state.status == "cut"):
            waiting += each.state.harvest == newest
    expected = usual.get((every[0].stored.version_id, newest))
    return BatchCut(
        str(every[0].stored.batch_id), every[0].template.label(), len(cut), len(cut) + waiting,
        total, _per_seed(total, cut), against_usual(total / len(cut), expected) if cut else "",
        newest,
    )  # fmt: skip
