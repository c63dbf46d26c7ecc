"""A sowing in words, before it is written."""

from datetime import datetime, timedelta

from logbook.actions.book import Book
from logbook.actions.trays.placing import placed_words
from logbook.actions.trays.sowing import SowPlan
from logbook.growing.crops.seed_lots import lots_grams, lots_words
from logbook.growing.measures import grams_words, hours_words
from logbook.growing.numbers import numbers_words
from logbook.text import plural


def plan_words(plan: SowPlan, book: Book) -> list[str]:
    """Say what a sowing comes to: seed, soak, each change with its time, the cut window."""
    when, units = book.when, book.units
    lines = [
        f"{plan.template.label()}: {plural(len(plan.numbers), 'tray')} {numbers_words(plan.numbers)}"
    ]
    if min(plan.numbers) < 0:
        lines.append("numbers when they are soaked or sown")
    if plan.seed_grams is not None and plan.grams_per_tray is not None:
        each = grams_words(plan.grams_per_tray, units)
        lines.append(f"seed {grams_words(plan.seed_grams, units)} ({each} per tray)")
    if plan.lots[1:] or lots_grams(plan.lots) is not None:
        lines.append(f"from {lots_words(plan.lots, units)}")
    if plan.asks_soak:
        lines.append(soak_question(plan.template.soak_seconds, plan.sow_at, book))
    if plan.soak_at is not None:
        lines.append(f"soak {when(plan.soak_at)}")
    lines.append(f"sow {when(plan.sow_at)}")
    lines += [f"{change.words} {when(change.at)}" for change in plan.changes]
    cut = plan.cut
    if plan.cut_at is not None:
        lines.append(f"cut {when(plan.cut_at)}")
    lines.append(f"cut from {when(cut.start)}, best {when(cut.best)}, by {when(cut.by)}")
    return lines


def soak_question(seconds: int, sown: datetime, book: Book) -> str:
    """Ask how seed was soaked that is sown; offers the template's soak (s), and to soak it first."""
    soak = timedelta(seconds=seconds)
    since, ready = map(book.when, (sown - soak, book.now() + soak))
    return (
        f"When did the soak begin? The template has {hours_words(seconds / 3600)}, so since "
        f"{since}. "
        f'Or "dry"; or "now" to soak it now and sow it {ready}.'
    )


def standing_words(plan: SowPlan) -> list[str]:
    """Say where the trays of a sowing will stand: "101–104 on Rack 1/Shelf 1"."""
    return placed_words(plan.numbers, plan.places)
