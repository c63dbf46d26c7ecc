"""A batch's page: its trays, what happened to them, and the weights."""

import re

from logbook.actions.book import Book
from logbook.actions.trays.ahead import ahead_of_all
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.entry_lines import lines_of
from logbook.actions.yields.unusual import unusual_batch
from logbook.growing.crops.yields import expect
from logbook.store.reads.batches import batches_instead
from logbook.store.reads.entries import read_entries
from logbook.store.reads.lots import read_lots
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, listed


def batch_page(book: Book, batch: str) -> BatchPage:
    """A batch's page by its name; raises Refused where there is none."""
    if not re.fullmatch(r"\s*[bB]?\d{1,15}\s*", batch):
        raise Refused(f'"{batch[:20]}" is not a batch; batches are numbered, like 12.')
    from logbook.actions.costs.costing import costs_of_batch

    with book.reading() as reading:
        number = int(batch.strip().lstrip("bB"))
        known = reading.folded(read_trays_of_batch(reading, number))
        if not known:
            now = batches_instead(reading, number)
            rest = f" Its sowing was corrected: it is batch {listed(now)} now." if now else ""
            raise Refused(f"There is no batch {batch.strip()[:20]}.{rest}")
        first, template = known[0].stored, known[0].template
        cost = costs_of_batch(reading, number)
        weights = [each.state.grams for each in known if each.state.grams is not None]
        return BatchPage(
            batch=str(first.batch_id), template_name=template.name, version=template.version,
            lot=first.lot, lots=read_lots(reading, [number]).get(number, ()),
            seed_grams=known[0].seed_grams,
            sown_at=min((k.state.sown_at for k in known if k.state.sown_at), default=None),
            planned_for=first.planned_for, trays=tuple(known),
            past=tuple(lines_of(reading, read_entries(reading, batch_id=number))),
            ahead=tuple(ahead_of_all(known)), cut_grams=sum(weights), cut_trays=len(weights),
            expected=reading.expected([first.version_id])[first.version_id],
            rest=expect(reading.meant([each for each in known if each.state.live]).values()),
            unusual=unusual_batch(reading, number),
            costs=None if cost is None else cost.costs,
        )  # fmt: skip
