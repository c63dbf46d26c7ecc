"""Ask the pack: its life in ten lines, from the bag to what shares its seed."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from statistics import fmean

from logbook.actions.book import Book
from logbook.actions.packs.roots import root_of
from logbook.actions.packs.steps import LIVE, Steps
from logbook.actions.packs.trace import TraceView, traced
from logbook.actions.packs.way import way_around
from logbook.actions.reading import Reading
from logbook.actions.trials.surroundings import surroundings_of
from logbook.actions.yields.lateness import lateness_of
from logbook.growing.crops.allergens import together
from logbook.growing.days import day_words
from logbook.growing.measures import grams_words, hours_words, number_words, temperature_words
from logbook.growing.packs.flow import Node
from logbook.growing.packs.trace import Step
from logbook.growing.trays.life import Status
from logbook.growing.trays.stays import stays_of
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.deeds import read_deeds
from logbook.text import Refused, listed, plural

MOST = 4
"""So many of a kind are named in a line; the rest is counted."""
NOT_COUNTED = ("lamps weaker", "watering missed")
"""What lateness says in other units than hours."""


@dataclass(frozen=True, slots=True)
class LifeLine:
    """A line of a life: what it is about, and what is known of that."""

    what: str
    words: str


@dataclass(frozen=True, slots=True)
class PackLife:
    """The life of a pack, a tray or a batch."""

    root: str
    """What was asked about, as the book calls it."""
    life: tuple[LifeLine, ...]


def life_of(book: Book, code: str) -> PackLife:
    """The life of a pack lot, a delivery, a tray or a batch; Refused for a whole bag or supplier."""
    with book.reading() as reading:
        root = root_of(reading, code)
        if root.what in ("seed lot", "supplier"):
            raise Refused(
                f"{root.code} is a {root.what}; ask about a pack lot, a delivery, a tray or a "
                "batch."
            )
        view = traced(reading, root)
        said = _lines(reading, view)
        return PackLife(root.code, tuple(LifeLine(what, words) for what, words in said))


def _lines(reading: Reading, view: TraceView) -> Iterator[tuple[str, str]]:
    trays = [tray for batch in view.batches for tray in batch.trays]
    steps = (view.root, *view.back, *view.forward)
    around = list(surroundings_of(reading, [tray.id for tray in trays]).values())
    lots = [step for step in steps if step.what == "pack lot"]
    yield (
        "pack",
        _each(f"{one.code}, {_on(one.day)}, {one.words}" for one in lots) + _contains(trays)
        if lots
        else "in no pack lot",
    )
    bags = (step for step in steps if step.what == "seed lot")
    bought = (
        f"{one.code} ({one.words}, bought {_on(one.day)})" if one.day else one.code for one in bags
    )
    yield "seed", _each(bought) or "no seed lot written"
    yield "sown", _each(map(_sown, trays))
    yield "stood", _each(_stood(reading, trays)) or "no place written"
    yield "late", _late(reading, trays)
    lit = {
        "DLI {} mol/m²/d": _mean((one.dli for one in around), 1),
        "PPFD {} µmol/m²/s": _mean((one.ppfd for one in around), 0),
        "{} h of light per day": _mean((one.lit_hours for one in around), 1),
    }
    yield "light", _known(lit) or "not measured"
    warm = [one.celsius for one in around if one.celsius is not None]
    air = {
        "{}": temperature_words(fmean(warm), reading.units) if warm else "",
        "{} % humidity": _mean((one.humidity for one in around), 0),
    }
    yield "air", _known(air) or "no readings"
    cuts = [step for step in steps if step.what == "cut"]
    yield "cut", _done(reading, cuts) or "not weighed"
    gone = [step for step in steps if step.what == "delivery"]
    yield (
        "packed",
        _each(f"{one.words} for {one.code}, {_on(one.day)}{_by([one])}" for one in gone)
        or "for no one yet",
    )
    yield "same seed", _shared(reading, view) or "nothing else"


def _contains(trays: Iterable[TrayNow]) -> str:
    known = together(tray.template.allergens_known for tray in trays)
    if known is None:
        return "; allergens not known"
    return f"; contains {listed(known)}" if known else ""


def _on(day: date | None) -> str:
    return day_words(day) if day else "day not known"


def _by(steps: Iterable[Step]) -> str:
    people = dict.fromkeys(step.by for step in steps if step.by)
    return f" by {listed(list(people))}" if people else ""


def _each(words: Iterable[str]) -> str:
    every = list(dict.fromkeys(words))
    more = [f"{len(every) - MOST} more"] if len(every) > MOST else []
    return "; ".join([*every[:MOST], *more])


def _known(said: dict[str, str]) -> str:
    return ", ".join(words.format(value) for words, value in said.items() if value)


def _mean(values: Iterable[float | None], digits: int) -> str:
    known = [each for each in values if each is not None]
    return number_words(fmean(known), digits) if known else ""


def _sown(tray: TrayNow) -> str:
    sown, soaked = tray.state.sown_at, tray.state.soaked_at
    if sown is None:
        return f"batch {tray.batch} is not sown yet"
    soak = (
        f"after {hours_words((sown - soaked).total_seconds() / 3600)} of soaking"
        if soaked
        else "dry"
    )
    if not soaked and tray.template.soak_seconds:
        soak = "no soak written"
    return f"{tray.when(sown)}, {soak} (batch {tray.batch})"


def _stood(reading: Reading, trays: Iterable[TrayNow]) -> Iterator[str]:
    deeds = read_deeds(reading, [tray.id for tray in trays])
    for tray in trays:
        stays = stays_of(tray.template, deeds.get(tray.id, ()), reading.now)
        places = (reading.places.path(one.place) for one in stays if one.place is not None)
        if path := ", then ".join(place for place, _ in groupby(places)):
            yield path


def _late(reading: Reading, trays: Iterable[TrayNow]) -> str:
    """The worst of each kind of lateness, where it is an hour or more."""
    deeds, worst = read_deeds(reading, [tray.id for tray in trays]), dict[str, float]()
    for tray in trays:
        state, until = tray.state, tray.state.ended_at or reading.now
        cut = state.ended_at if state.status is Status.CUT else None
        found = lateness_of(
            tray.template, deeds.get(tray.id, []), tray.hours, state.sown_at, cut, until
        )
        for name, value in found.items():
            worst[name] = max(value, worst.get(name, 0.0))
    late = [
        f"{name.removesuffix(' late')} {hours_words(value)}{' late' if name.endswith(' late') else ''}"
        for name, value in worst.items()
        if value >= 1 and name not in NOT_COUNTED
    ]
    if missed := round(worst.get("watering missed", 0.0)):
        late.append(f"{plural(missed, 'watering')} fewer than planned")
    return listed(late) or "nothing an hour late or more"


def _done(reading: Reading, cuts: Iterable[Step]) -> str:
    said = []
    for day, some in groupby(
        sorted(cuts, key=lambda one: one.day or date.min), lambda one: one.day
    ):
        mine = list(some)
        grams = sum(one.grams for one in mine)
        cut = f"{grams_words(grams, reading.units)} of {plural(len(mine), 'cut')}"
        said.append(f"{_on(day)}{_by(mine)}, {cut if grams else LIVE}")
    return _each(said)


def _shared(reading: Reading, view: TraceView) -> str:
    """What else came of the same seed: trays that grow, pack lots, customers."""
    own = {(step.what, step.code) for step in (view.root, *view.back, *view.forward)}
    seed = [
        Node("seed lot", step.code) for step in (view.root, *view.back) if step.what == "seed lot"
    ]
    way = way_around(reading, seed)
    grams = way.flow.forward(seed).grams
    steps = Steps(reading, way)
    mine = {tray.id for batch in view.batches for tray in batch.trays}
    growing = [
        tray
        for tray in steps.trays.values()
        if tray.status is Status.GROWING and tray.id not in mine
    ]
    lots = [
        step.code
        for step in steps.of(grams, ())
        if step.what == "pack lot" and (step.what, step.code) not in own
    ]
    customers = dict.fromkeys(one.customer for one in steps.customer_shares(grams))
    parts = (
        f"{plural(len(growing), 'tray')} growing" if growing else "",
        f"{'lot' if len(lots) == 1 else 'lots'} {listed(lots, MOST)}" if lots else "",
        f"packs at {listed(list(customers), MOST)}" if customers else "",
    )
    return "; ".join(filter(None, parts))
