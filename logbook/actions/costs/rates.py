"""What things cost: typed, listed, asked for."""

from datetime import date, timedelta
from decimal import Decimal

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.growing.costs.rates import RATES, CostRate
from logbook.growing.days import day_of
from logbook.store.reads.costs import read_rates
from logbook.store.reads.templates import read_templates
from logbook.store.rows import moment
from logbook.text import Refused

EARLIEST = date(2000, 1, 1)


def rates_of(reading: Reading) -> list[CostRate]:
    """All rates in the order in which they were written."""
    money = reading.about.money
    return [
        CostRate(one.name, one.amount, one.since, one.template_id, one.crop, money)
        for one in read_rates(reading)
        if one.name in RATES
    ]


def list_rates(book: Book) -> list[CostRate]:
    """The rates that hold or will: of each name and crop the newest before today, and those to come."""
    with book.reading() as reading:
        today, kept = reading.today, dict[tuple[str, str, date | None], CostRate]()
        for one in sorted(rates_of(reading), key=lambda one: one.since):
            kept[one.name, one.crop, one.since if one.since > today else None] = one
    order = list(RATES)
    return sorted(kept.values(), key=lambda one: (order.index(one.name), one.crop, one.since))


def set_rate(
    book: Book, name: str, amount: Decimal, crop: str = "", since: date | None = None
) -> Done:
    """Write what something costs from a day on; raises Refused.

    Without a day the first of its name and crop applies from the book's first day, a later one from
    today. A second one for the same day takes its place.
    """
    with book.writing() as act:
        reading = act.reading
        template = find_template(crop, read_templates(reading)) if crop else None
        crop_id = template.id if template else None
        first = not any(
            (one.name, one.template_id) == (name, crop_id) for one in read_rates(reading)
        )
        day = since or (_first_day(reading) if first else reading.today)
        if not EARLIEST <= day <= reading.today + timedelta(days=800):
            raise Refused(f"The day {day} is too far away; check the year.")
        rate = CostRate(
            name, amount, day, crop_id, template.template.name if template else "", reading.about.money,
        )  # fmt: skip
        entry = act.entry("cost", (), note=rate.words)
        act.put(
            "cost_rate", entry, name=name, template_id=rate.template_id, amount=f"{amount:f}",
            since=day,
        )  # fmt: skip
        unset = reading.about.money.unset_words
        return done_of(act, rate.words, (), [unset] if unset and not RATES[name].unit else [])


def _first_day(reading: Reading) -> date:
    """The first day of which the book tells."""
    begun, first = reading.about.made_at, reading.value("SELECT min(at) FROM entry")
    day = day_of(begun if first is None else min(begun, moment(first)), reading.zone)
    return max(day, EARLIEST)
