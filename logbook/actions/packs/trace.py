"""Tracing: what came of a bag and where packs came from, with grams that add up."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.packs.may_have_got import may_have_got
from logbook.actions.packs.roots import Root, root_of
from logbook.actions.packs.steps import Steps
from logbook.actions.packs.way import way_around
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.crops.seed_lots import SeedLot
from logbook.growing.currencies import Currency
from logbook.growing.packs.trace import Step, Trace
from logbook.growing.seed.bags import LotStock
from logbook.growing.trays.life import Status
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.lots import read_lots


@dataclass(frozen=True, slots=True)
class TracedBatch:
    """A batch on the way, with its trays except those whose sowing was struck out."""

    keys: ClassVar = "batch template=template_name lots at cut_grams trays"

    batch: str
    template_name: str
    lots: tuple[SeedLot, ...]
    """Every lot that it was sown from."""
    at: datetime | None
    """When it was sown, or for when it is planned."""
    trays: tuple[TrayNow, ...]

    @property
    def cut_grams(self) -> float:
        """What was cut of it so far, g."""
        return sum(tray.state.grams or 0.0 for tray in self.trays)


@dataclass(frozen=True, slots=True, kw_only=True)
class TraceView(Trace):
    """A trace with what people are told of it."""

    batches: tuple[TracedBatch, ...]
    """The batches on the way, the oldest first."""

    def numbers(self, status: Status) -> tuple[int, ...]:
        """The numbers of the trays with a status."""
        return tuple(
            tray.number
            for batch in self.batches
            for tray in batch.trays
            if tray.state.status == status
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedTrace(TraceView):
    """The trace of a seed lot, and what is known of its bags."""

    keys: ClassVar = f"{Trace.keys} lot spellings alike stock batches currency=money.code"

    spellings: tuple[str, ...]
    """Every way in which it was written, the most usual first, those spelled alike last."""
    alike: tuple[str, ...]
    """Those of them that are spelled alike: they may be of another bag."""
    stock: LotStock
    """Its bags, what is left, and how much of it comes up."""
    money: Currency

    @property
    def lot(self) -> str:
        """As it was written most often."""
        return self.spellings[0]


def trace(book: Book, code: str) -> TraceView:
    """Follow what a code means back to the bag and forward to every customer.

    Raises Refused where nothing, or more than one kind, has that name.
    """
    with book.reading() as reading:
        return traced(reading, root_of(reading, code))


def traced(reading: Reading, root: Root) -> TraceView:
    """The trace of a root."""
    way = way_around(reading, root.nodes, root.unlotted)
    forward, back = way.flow.forward(root.nodes), way.flow.back(root.nodes)
    steps = Steps(reading, way)
    view = TraceView(
        root=_root_step(root, steps, forward.grams_in),
        back=tuple(steps.of(back.grams, root.nodes)[::-1]),
        forward=tuple(steps.of(forward.grams, () if root.several else root.nodes)),
        customers=tuple(steps.customer_shares(forward.grams)),
        grams_in=forward.grams_in,
        grams_out=forward.sum("delivery", "own use"),
        grams_stock=forward.sum("stock"),
        grams_waste=forward.sum("waste"),
        grams_unaccounted=forward.sum("unaccounted"),
        may_have_got=tuple(may_have_got(reading, way, forward.grams)),
        batches=tuple(_batches(reading, steps)),
    )
    return view if root.what != "seed lot" else _of_seed(reading, root, view)


def _root_step(root: Root, steps: Steps, grams: float) -> Step:
    """What is known of the root, where that is one thing."""
    if root.several or len(root.nodes) != 1:
        return Step(root.what, root.code, None, grams)
    found = steps.step(root.nodes[0], grams)
    return replace(found, what=root.what, code=root.code)


def _batches(reading: Reading, steps: Steps) -> Iterator[TracedBatch]:
    lots = read_lots(reading, steps.batches)
    for batch, trays in sorted(steps.batches.items()):
        begun = [each.state.sown_at or each.state.planned_for for each in trays]
        at = min((at for at in begun if at is not None), default=None)
        yield TracedBatch(str(batch), trays[0].template.name, lots.get(batch, ()), at, tuple(trays))


def _of_seed(reading: Reading, root: Root, view: TraceView) -> SeedTrace:
    mine = {node.id for node in root.nodes}
    named = [lot.lot for batch in view.batches for lot in batch.lots if lot.lot in mine]
    counted = Counter([*named, *(str(node.id) for node in root.nodes)])
    known = {each.name: getattr(view, each.name) for each in fields(view)}
    spellings = sorted(counted, key=lambda name: (name in root.alike, -counted[name]))
    return SeedTrace(
        **known, spellings=tuple(spellings),
        alike=tuple(name for name in spellings if name in root.alike),
        stock=lots_in_stock(reading, only=[spellings[0]])[0], money=reading.about.money,
    )  # fmt: skip
