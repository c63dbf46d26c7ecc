"""A delivery note: what a customer gets of which lots, good until when, from whom."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from logbook.actions.book import Book
from logbook.actions.orders.customers import find_customer
from logbook.actions.orders.ordering import amount_words
from logbook.actions.orders.wanted import crop_names
from logbook.actions.reading import Reading
from logbook.growing.crops.allergens import together
from logbook.growing.days import day_words
from logbook.growing.orders.customer import Packed
from logbook.growing.orders.wishes import mix_on
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.orders import last_got, read_mixes, read_packed
from logbook.store.reads.packs import lots_of_entries, read_lots
from logbook.store.reads.templates import read_templates
from logbook.store.rows import grouped
from logbook.text import Refused, listed


@dataclass(frozen=True, slots=True)
class NoteLot:
    """A lot of which packs are."""

    lot: str
    packed_on: date
    best_before: date


@dataclass(frozen=True, slots=True)
class NoteLine:
    """Packs of one crop or mix; live trays where `pack_grams` is null."""

    crop: str
    packs: int
    pack_grams: float | None
    lots: tuple[NoteLot, ...]
    """None where they came from no lot in the book."""
    allergens: tuple[str, ...] | None
    """What buyers must be told of; null where nobody has looked."""
    packed_at: datetime
    packed_by: str


@dataclass(frozen=True, slots=True)
class DeliveryNote:
    """What a customer got for a day, by whom it was packed and when."""

    maker: str
    address: str
    customer: str
    contact: str
    day: date
    lines: tuple[NoteLine, ...]


def delivery_note(book: Book, customer: str, day: str = "") -> DeliveryNote:
    """The note of what is packed for a customer's delivery of a day, or of the last one that was packed.

    Raises Refused where nothing is packed for them.
    """
    with book.reading() as reading:
        who = find_customer(reading, customer, gone=True)
        last = last_got(reading, who.id)
        wanted = parse_day_ahead(day, reading.now, reading.zone) if day else last
        packed = [
            each for each in (read_packed(reading, wanted) if wanted else ())
            if (each.customer, each.day) == (who.id, wanted)
        ]  # fmt: skip
        if not packed or wanted is None:
            at = f" for {day_words(wanted, reading.today)}" if day and wanted else ""
            raise Refused(f"Nothing is packed for {who.name}{at}.", "customer")
        about = reading.about
        return DeliveryNote(
            about.maker or about.name, about.address or "", who.name, who.contact, wanted,
            tuple(_lines(reading, packed)),
        )  # fmt: skip


def _lines(reading: Reading, packed: list[Packed]) -> list[NoteLine]:
    crops = crop_names(reading)
    mixes = grouped((mix.id, mix) for mix in read_mixes(reading))
    known = {each.id: each.template.allergens_known for each in read_templates(reading)}
    entries = lots_of_entries(reading, [each.entry for each in packed])
    lots = read_lots(reading, {lot for found in entries.values() for lot in found})

    def of(each: Packed) -> tuple[str, Mapping[int, float]]:
        if each.mix is None:
            return crops[each.template or 0], {each.template or 0: 1.0}
        mix = mix_on(mixes[each.mix], each.day)
        return mix.name, mix.shares

    found = []
    for each in packed:
        name, shares = of(each)
        mine = (lots[lot] for lot in entries.get(each.entry, ()))
        if each.mix is not None:
            mine = (lot for lot in mine if lot.mix == each.mix)  # not what its own lot was mixed of
        found.append(
            NoteLine(
                name, each.packs, each.pack_grams,
                tuple(NoteLot(lot.code, lot.packed_on, lot.best_before) for lot in mine),
                together(known[crop] for crop in shares), each.at, each.by,
            )
        )  # fmt: skip
    return found


def note_words(line: NoteLine, book: Book) -> tuple[str, str]:
    """A line of the note: how much of what; from which lots, good until when, with which allergens."""
    today = book.today()
    lots = [
        f"lot {each.lot}, best before {day_words(each.best_before, today)}" for each in line.lots
    ]
    contains = f"contains {listed(line.allergens)}" if line.allergens else ""
    said = (line.crop, "; ".join(lots) or "no lot written", contains)
    return amount_words(line.packs, line.pack_grams, book.units), "; ".join(filter(None, said))
