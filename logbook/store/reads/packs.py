"""Reading pack lots, what went into them and out of them, from standing entries."""

from collections.abc import Collection, Iterator, Mapping
from datetime import date, timedelta

from logbook.growing.packs.lots import LotCut, LotNow, LotOut, LotPacked, LotPart, PackLot
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, grouped

LONGEST_KEEPING = timedelta(days=366)
"""A lot that was packed longer ago is not looked for in the cold store."""
_LOT = (
    "SELECT x.lot_id AS id, code, template_id AS template, mix_id AS mix, packed_on, best_before "
    "FROM pack_lot x CROSS JOIN entry e ON e.id = x.entry_id"
)


def read_lots(reading: Rows, ids: Collection[int]) -> dict[int, PackLot]:
    """Pack lots by id, as the newest standing entry of each says; of none, as it was named."""
    rows = reading.make_of(
        PackLot, f"{_LOT} WHERE x.lot_id IN (ids) ORDER BY {STANDS}, x.entry_id", ids
    )
    return {each.id: each for each in rows}


def read_lots_since(reading: Rows, day: date) -> dict[int, PackLot]:
    """Pack lots that were packed on a day or later, by id."""
    ids = "SELECT lot_id FROM pack_lot WHERE packed_on >= ?"
    return read_lots(reading, [lot for (lot,) in reading.rows(ids, (day.isoformat(),))])


def read_lots_keeping(reading: Rows, day: date) -> dict[int, PackLot]:
    """Pack lots that are best before a day or later, by id."""
    ids = "SELECT lot_id FROM pack_lot WHERE best_before >= ? AND packed_on >= ?"
    since = day - LONGEST_KEEPING
    found = reading.rows(ids, (day.isoformat(), since.isoformat()))
    lots = read_lots(reading, [lot for (lot,) in found])
    return {lot.id: lot for lot in lots.values() if lot.best_before >= day}


def lots_of_code(reading: Rows, key: str) -> list[int]:
    """The lots (ids) that ever had a code (folded)."""
    found = reading.rows("SELECT DISTINCT lot_id FROM pack_lot WHERE code_key = ?", (key,))
    return [lot for (lot,) in found]


def read_cuts(reading: Rows, lots: Collection[int]) -> list[LotCut]:
    """The standing cuts that went into lots, oldest first."""
    return reading.make_of(
        LotCut,
        "SELECT w.lot_id AS lot, w.entry_id AS entry, e.at, w.tray_id AS tray, t.number, "
        "t.batch_id AS batch, w.grams FROM weight w CROSS JOIN entry e ON e.id = w.entry_id "
        f"CROSS JOIN tray t ON t.id = w.tray_id WHERE {STANDS} AND w.lot_id IN (ids) "
        "ORDER BY e.at, e.id",
        lots,
    )


def cut_grams_of_lots(reading: Rows, lots: Collection[int]) -> Iterator[tuple[int, int, float]]:
    """What was cut into lots: lot, tray (ids) and g of each standing weight."""
    return reading.rows_of(
        "SELECT w.lot_id, w.tray_id, w.grams FROM weight w CROSS JOIN entry e ON e.id = w.entry_id "
        f"WHERE {STANDS} AND w.lot_id IN (ids) ORDER BY w.entry_id, w.tray_id",
        lots,
    )


def read_parts(reading: Rows, lots: Collection[int], *, taken: bool = False) -> list[LotPart]:
    """What mixed lots took of others; with `taken` what others took of these."""
    column = "p.from_lot_id" if taken else "p.entry_id"
    return reading.make_of(
        LotPart,
        "SELECT p.entry_id AS lot, p.from_lot_id AS source, grams FROM lot_part p "
        f"CROSS JOIN entry e ON e.id = p.entry_id WHERE {STANDS} AND {column} IN (ids) "
        "ORDER BY p.entry_id, p.from_lot_id",
        lots,
    )


def read_lot_packed(reading: Rows, lots: Collection[int]) -> list[LotPacked]:
    """To whom lots went, oldest first."""
    return reading.make_of(
        LotPacked,
        'SELECT l.lot_id AS lot, l.entry_id AS entry, e.at, e."by", x.customer_id AS customer, x.day, '
        "l.packs, l.grams FROM packed_lot l CROSS JOIN packed x ON x.entry_id = l.entry_id "
        f"CROSS JOIN entry e ON e.id = l.entry_id WHERE {STANDS} AND l.lot_id IN (ids) "
        "ORDER BY e.at, e.id",
        lots,
    )


def grams_from_lots(reading: Rows, entries: Collection[int]) -> dict[int, float]:
    """The cut g that came from lots, by the entry that packed it."""
    sql = "SELECT entry_id, sum(grams) FROM packed_lot WHERE entry_id IN (ids) GROUP BY entry_id"
    return {entry: grams for entry, grams in reading.rows_of(sql, entries) if grams is not None}


def read_lot_outs(reading: Rows, lots: Collection[int]) -> list[LotOut]:
    """What else left lots, oldest first."""
    return reading.make_of(
        LotOut,
        'SELECT x.lot_id AS lot, x.entry_id AS entry, e.at, e."by", why, grams, '
        "customer_id AS customer FROM lot_out x CROSS JOIN entry e ON e.id = x.entry_id "
        f"WHERE {STANDS} AND x.lot_id IN (ids) ORDER BY e.at, e.id",
        lots,
    )


def read_lots_now(reading: Rows, lots: Mapping[int, PackLot]) -> list[LotNow]:
    """Lots with all that stands of them, in the order of their packing; those of which nothing does are left out."""
    cuts = grouped((each.lot, each) for each in read_cuts(reading, lots))
    parts = grouped((each.lot, each) for each in read_parts(reading, lots))
    given = grouped((each.source, each) for each in read_parts(reading, lots, taken=True))
    packed = grouped((each.lot, each) for each in read_lot_packed(reading, lots))
    outs = grouped((each.lot, each) for each in read_lot_outs(reading, lots))
    found = (
        LotNow(
            lot, tuple(cuts.get(lot.id, ())), tuple(parts.get(lot.id, ())),
            tuple(given.get(lot.id, ())), tuple(packed.get(lot.id, ())), tuple(outs.get(lot.id, ())),
        )
        for lot in sorted(lots.values(), key=lambda each: (each.packed_on, each.id))
    )  # fmt: skip
    return [each for each in found if each.cuts or each.parts or each.begun]


def lots_to_join(reading: Rows, template: int, day: date) -> list[LotNow]:
    """The lots of a crop and day of which nothing has gone out yet, oldest first."""
    ids = "SELECT DISTINCT lot_id FROM pack_lot WHERE packed_on = ? AND template_id = ?"
    lots = read_lots(reading, [lot for (lot,) in reading.rows(ids, (day.isoformat(), template))])
    same = {each.id: each for each in lots.values() if each.packed_on == day}
    return [each for each in read_lots_now(reading, same) if not each.begun]


def lots_of_entries(reading: Rows, entries: Collection[int]) -> dict[int, list[int]]:
    """The lots (ids) on whose grams entries bear, by entry."""
    found: dict[int, list[int]] = {}
    for table, column in (
        ("weight", "lot_id"), ("packed_lot", "lot_id"), ("lot_out", "lot_id"), ("lot_part", "from_lot_id"),
    ):  # fmt: skip
        sql = (
            f"SELECT DISTINCT entry_id, {column} FROM {table} "
            f"WHERE {column} IS NOT NULL AND entry_id IN (ids) ORDER BY entry_id, {column}"
        )
        for entry, lot in reading.rows_of(sql, entries):
            found.setdefault(entry, []).append(lot)
    return found


def live_partners(reading: Rows, entry: int) -> list[int]:
    """Of a tick the sales of live trays that it took, of such a sale its tick, by entry."""
    rows = reading.rows(
        "SELECT CASE l.entry_id WHEN :entry THEN l.lot_id ELSE l.entry_id END FROM packed_lot l "
        "WHERE l.grams IS NULL AND (l.entry_id = :entry OR l.lot_id = :entry)",
        {"entry": entry},
    )
    return [partner for (partner,) in rows]
