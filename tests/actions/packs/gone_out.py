"""What goes out of pack lots, as rows: more than there is too, as corrections leave it."""

from collections.abc import Mapping
from datetime import date

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.packs.joining import new_lot
from logbook.growing.crops.templates import CropTemplate
from logbook.text import fold

DAY = date(2026, 4, 14)


def lot_ids(book: Book) -> dict[str, int]:
    """The pack lots by their codes."""
    with book.reading() as reading:
        return dict(reading.rows("SELECT code, lot_id FROM pack_lot ORDER BY entry_id"))


def customer_of(book: Book, name: str) -> int:
    """A customer's id; made where there is none yet."""
    with book.reading() as reading:
        key = fold(name)
        found = reading.value("SELECT customer_id FROM customer WHERE name_key = ?", (key,))
    if found is None:
        put_customer(book, CustomerDraft(name, kind="kitchen"), new=True)
        return customer_of(book, name)
    return int(found)


def despatch(
    book: Book, customer: str, lots: Mapping[str, float | None], packs: int = 1, day: date = DAY
) -> int:
    """Packs of lots (cut g by code, None of live trays) for a customer's delivery; of no lot where none is named."""
    who, ids = customer_of(book, customer), lot_ids(book)
    with book.writing() as act:
        entry = act.entry("pack", ())
        whole = sum(grams or 0.0 for grams in lots.values()) or 300.0
        act.put(
            "packed", entry, order_id=None, customer_id=who, template_id=None, mix_id=None,
            packs=packs, pack_grams=whole / packs, day=day,
        )  # fmt: skip
        for code, grams in lots.items():
            act.put("packed_lot", entry, lot_id=ids[code], packs=packs, grams=grams)
        return entry


def take_out(book: Book, code: str, grams: float, why: str, customer: str = "") -> int:
    """What left a lot otherwise."""
    who = customer_of(book, customer) if customer else None
    lot = lot_ids(book)[code]
    with book.writing() as act:
        entry = act.entry("pack_lot", ())
        act.put("lot_out", entry, lot_id=lot, grams=grams, why=why, customer_id=who)
        return entry


def mixed(book: Book, name: str, parts: Mapping[str, float], crop: CropTemplate) -> str:
    """A lot of other lots (cut g by code); its code."""
    ids = lot_ids(book)
    with book.writing() as act:
        made = new_lot(act, DAY, name, keeps=crop.keeps)
        for code, grams in parts.items():
            act.put("lot_part", made.id, from_lot_id=ids[code], grams=grams)
        return made.code
