"""Reading what was said that things cost, and what batches used."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.rows import Row, Rows


@dataclass(frozen=True, slots=True)
class SaidRate:
    """A rate as an entry says; template_id None for all crops."""

    name: str
    amount: Decimal
    since: date
    template_id: int | None
    crop: str


def read_rates(reading: Rows) -> list[SaidRate]:
    """All standing rates in the order in which they were written."""
    return reading.make(
        SaidRate,
        "SELECT r.name, r.amount, r.since, r.template_id, coalesce(c.name, '') AS crop "
        "FROM cost_rate r CROSS JOIN entry e LEFT JOIN template c ON c.id = r.template_id "
        f"WHERE e.id = r.entry_id AND {STANDS} ORDER BY e.id",
    )


def count_deeds(reading: Rows, trays: Collection[int]) -> Iterator[Row]:
    """By batch and kind: how often trays (ids) had it, and the water in it in ml, -1 unknown."""
    return reading.rows_of(
        "SELECT t.batch_id, e.kind, count(*), "
        "CASE WHEN e.kind = 'water' AND count(w.amount_ml) < count(*) THEN -1 "
        "ELSE coalesce(sum(w.amount_ml), 0) END "
        "FROM entry_tray et CROSS JOIN entry e CROSS JOIN tray t "
        "LEFT JOIN watering w ON w.entry_id = e.id "
        f"WHERE et.tray_id IN (ids) AND e.id = et.entry_id AND t.id = et.tray_id AND {STANDS} "
        "AND e.kind IN ('soak', 'sow', 'water', 'look', 'glance', 'change', 'weigh', 'cut', "
        "'cut_part', 'cut_keep') GROUP BY t.batch_id, e.kind",
        trays,
    )


def count_trays(reading: Rows, batches: Collection[int]) -> dict[int, int]:
    """How many trays of batches (ids) were sown."""
    return dict(
        reading.rows_of(
            f"SELECT t.batch_id, count(*) FROM tray t WHERE {STANDING_TRAY} AND t.batch_id IN (ids) "
            "GROUP BY t.batch_id",
            batches,
        )
    )


def read_sale_prices(reading: Rows) -> dict[int, Decimal]:
    """By template id what a kilogram sells for: the newest order of it with a price per pack."""
    rows = reading.rows(
        "SELECT o.template_id, o.price, o.pack_grams FROM order_line o CROSS JOIN entry e "
        f"WHERE e.id = o.entry_id AND {STANDS} AND o.price IS NOT NULL AND o.pack_grams > 0 "
        "AND o.template_id IS NOT NULL ORDER BY e.id"
    )
    return {
        template: Decimal(price) * 1000 / Decimal(f"{grams:.12g}")
        for template, price, grams in rows
    }
