"""A trace in lines, for the screen and the command."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime

from logbook.actions.packs.life import LifeLine
from logbook.actions.packs.roots import tray_code
from logbook.actions.packs.steps import NO_LOT, became
from logbook.actions.packs.trace import SeedTrace, TracedBatch, TraceView
from logbook.growing.crops.seed_lots import lots_words
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.packs.trace import CustomerShare, MayHaveGot, Step
from logbook.growing.trays.life import Status
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.rows import grouped
from logbook.text import listed, plural

When = Callable[[datetime], str]
LEAST = 0.05
"""Grams: less is only the rounding of a sum."""


@dataclass(frozen=True, slots=True)
class TraceLine:
    """A line of a trace and what it is of; a line without that is a head."""

    text: str
    of: Step | TracedBatch | CustomerShare | MayHaveGot | LifeLine | None = None


def trace_lines(found: TraceView, units: Units, when: When) -> Iterator[TraceLine]:
    """What a trace says below its head and its sums: customers, bags, batches with their trays, lots."""
    if found.customers:
        yield TraceLine("Customers")
    for each in found.customers:
        amount = f"{grams_words(each.grams, units)} of " if each.grams else ""
        lots = [f"packs with {lot}" if lot == NO_LOT else lot for lot in each.lots]
        words = f"{amount}{listed(lots, len(lots))}"
        yield TraceLine(f"  {each.customer}, {day_words(each.day)}: {words}", each)
    if found.may_have_got:
        yield TraceLine("May have got some of what is unaccounted for: packs from no pack lot")
    yield from (TraceLine(f"  {each.words}", each) for each in found.may_have_got)
    steps = (*found.back[::-1], *found.forward)
    for step in steps:
        if step.what == "seed lot" and not isinstance(found, SeedTrace):
            bought = f": bought {day_words(step.day)}, {step.words}" if step.day else ""
            yield TraceLine(f"Seed lot {step.code}{bought}", step)
    grams = {step.code: step.grams for step in (*steps, found.root) if step.what == "tray"}
    for batch in found.batches:
        yield TraceLine(_batch_words(batch, found, units, when), batch)
        for words, trays in grouped((became(tray), tray) for tray in batch.trays).items():
            yield TraceLine(f"  {words}: {_trays_words(trays, grams, units)}", batch)
    for step in steps:
        if step.what == "pack lot":
            about = f", {step.words}" if step.words else ""
            packed = f" packed {day_words(step.day)}" if step.day else ""
            yield TraceLine(
                f"Pack lot {step.code}:{packed}{about}, {grams_words(step.grams, units)}", step
            )


def head_words(found: TraceView) -> list[str]:
    """What was traced, and how its name was written."""
    root = found.root
    named = f"{root.what[0].upper()}{root.what[1:]} {root.code}"
    if not isinstance(found, SeedTrace):
        return [named + (f": {root.words}" if root.words else "")]
    counts = [
        f"{len(numbers)} {status.words}" for status in Status if (numbers := found.numbers(status))
    ]
    same = found.spellings[1 : len(found.spellings) - len(found.alike)]
    also = f" (also written {', '.join(same)})" if same else ""
    batches = plural(len(found.batches), "batch", "batches")
    lines = [f"{named}{also}: {batches}, trays: {', '.join(counts) or 'none'}"]
    if found.alike:
        too = ", so shown too" if found.alike != found.spellings else ""
        lines.append(f"Spelled alike{too}; compare the bags: {', '.join(found.alike)}")
    return lines


def sums_words(found: TraceView, units: Units) -> str:
    """What was cut and where it is: "Cut 573 g: 250 g went out, 323 g in stock"; '' for nothing cut."""
    parts = {
        "went out": found.grams_out, "in stock": found.grams_stock, "waste": found.grams_waste,
        "unaccounted for": found.grams_unaccounted,
    }  # fmt: skip
    said = [
        f"{grams_words(each, units)} {words}" for words, each in parts.items() if abs(each) > LEAST
    ]
    cut = f"Cut {grams_words(found.grams_in, units)}"
    return f"{cut}: {', '.join(said)}" if said else ""


def _batch_words(batch: TracedBatch, found: TraceView, units: Units, when: When) -> str:
    done = "sown" if any(tray.state.sown_at for tray in batch.trays) else "planned for"
    at = f", {done} {when(batch.at)}" if batch.at else ""
    alone = len(batch.lots) == 1 and batch.lots[0].grams is None
    told = batch.lots and not (isinstance(found, SeedTrace) and not found.alike and alone)
    lots = f", from {lots_words(batch.lots, units)}" if told else ""
    return f"Batch {batch.batch}: {batch.template_name}{at}{lots}"


def _trays_words(trays: list[TrayNow], mine: dict[str, float], units: Units) -> str:
    """Their numbers, and what they gave; "of" what where some of that is not traced."""
    whole = sum(tray.state.grams or 0.0 for tray in trays)
    part = sum(mine.get(tray_code(tray), 0.0) for tray in trays)
    numbers = numbers_words(tray.number for tray in trays)
    if not whole:
        return numbers
    some = f"{grams_words(part, units)} of " if abs(whole - part) > LEAST else ""
    return f"{numbers}, {some}{grams_words(whole, units)}"
