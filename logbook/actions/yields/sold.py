"""What of each crop was packed and sold over days."""

from datetime import date, datetime, timedelta

from logbook.actions.reading import Reading
from logbook.growing.days import day_of
from logbook.growing.yields.sold import Left, Sold, sold_of
from logbook.store.reads.orders import read_mixes, read_packed
from logbook.store.reads.packs import read_outs_of
from logbook.store.reads.templates import read_templates
from logbook.store.rows import grouped

LATE = timedelta(days=14)
"""A delivery is ticked so long after its day at most."""


def sold_by_crop(
    reading: Reading, since: date, until: date, start: datetime, end: datetime
) -> dict[str, Sold]:
    """By the crop's name; those of which nothing was packed are left out."""
    packed = read_packed(reading, since - LATE)
    left = [
        Left(day_of(at, reading.zone), template, mix, grams, why)
        for at, template, mix, grams, why in read_outs_of(reading, start, end)
    ]
    if not packed and not left:
        return {}
    mixes = grouped((each.id, each) for each in read_mixes(reading))
    dated = [(day_of(each.at, reading.zone), each) for each in packed]
    found = sold_of(dated, left, mixes, since, min(until, reading.today))
    names = {each.id: each.template.label() for each in read_templates(reading)}
    told: dict[str, Sold] = {}
    for template, each in found.items():
        if template in names:
            told[names[template]] = told.get(names[template], Sold()) + each
    return told
