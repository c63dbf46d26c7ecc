"""Reading what was said that things cost, and what batches used."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.rows import Rows


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


CHORES = ("soak", "sow", "water", "look", "change", "cut")
_OF_CHORE = {"glance": "look", "weigh": "cut", "cut_part": "cut", "cut_keep": "cut"}
"""Kinds of entries that are the work of another's name."""
_BITS = 20
_SHARED = len(CHORES) // 2


def count_chores(
    reading: Rows, trays: Collection[int]
) -> Iterator[tuple[int, tuple[int, ...], float | None]]:
    """By tray (id): its batch, how often it had each of CHORES, and its water, ml; None where not known.

    Two whole numbers hold the counts of three chores each, 20 bits for one: so SQLite goes along the
    trays once, where a group for each kind would make it sort half a million rows for a year.
    """
    sums = ", ".join(_sum_of(CHORES[at : at + _SHARED]) for at in (0, _SHARED))
    rows = reading.rows_of(
        f"SELECT max(t.batch_id), {sums}, count(w.amount_ml), coalesce(sum(w.amount_ml), 0) "
        "FROM entry_tray et CROSS JOIN entry e ON e.id = et.entry_id CROSS JOIN tray t "
        "ON t.id = et.tray_id LEFT JOIN watering w ON e.kind = 'water' AND w.entry_id = e.id "
        f"WHERE et.tray_id IN (ids) AND {STANDS} GROUP BY et.tray_id ORDER BY et.tray_id",
        trays,
    )
    mask = (1 << _BITS) - 1
    for batch, *packed, told, amount in rows:
        counts = tuple(each >> _BITS * at & mask for each in packed for at in range(_SHARED))
        yield batch, counts, amount if told == counts[CHORES.index("water")] else None


def _sum_of(chores: Sequence[str]) -> str:
    kinds = [
        (kind, at)
        for at, chore in enumerate(chores)
        for kind in (chore, *(one for one, of in _OF_CHORE.items() if of == chore))
    ]
    cases = " ".join(f"WHEN '{kind}' THEN {1 << _BITS * at}" for kind, at in kinds)
    return f"sum(CASE e.kind {cases} ELSE 0 END)"


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
