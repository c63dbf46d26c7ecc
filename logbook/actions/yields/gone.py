"""The trays that left the rack in a span, with all that their yield is reckoned from."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from decimal import Decimal

from logbook.actions.reading import Reading
from logbook.actions.room.lives import LONGEST, light_used
from logbook.actions.yields.sold import sold_of_trays
from logbook.growing.room.shelf_past import Use
from logbook.growing.trays.life import Deed
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.moves import Moves, read_moves, read_moves_of
from logbook.store.reads.templates import template_of_versions
from logbook.store.reads.trays import read_trays_of_batch
from logbook.store.reads.yields import Gone, read_gone, read_lot_names, read_uncut

Cuts = tuple[datetime | None, float | None, float, float]
"""When a tray was cut first; g of the first cut, of further ones of that harvest, of regrowth."""
FEW = 1_500
"""Of so many trays what moved them is read tray by tray, of more all of the time is."""


def gone_trays(
    reading: Reading, start: datetime, end: datetime, template: int | None = None, *,
    weights_only: bool = False,
) -> list[GoneTray]:  # fmt: skip
    """The trays that left the rack from start until before end, of one template (id) or of all.

    With `weights_only` what lit them, and what became of their cuts, is left out.
    """
    gone = read_gone(reading, start, end, template)
    versions = reading.versions({one.version_id for one in gone})
    moves, early = _moves_of(reading, gone, start, end, light=not weights_only)
    lots = read_lot_names(reading, {one.batch_id for one in gone})
    uncut = read_uncut(reading, [one.id for one in gone if one.cut_grams is None])
    lost = {tray: why for tray, (kind, why) in uncut.items() if kind == "discard"}
    apart = (moves.several & {one.id for one in gone}) | lost.keys() | early
    cuts = {tray: _cuts(deeds) for tray, deeds in read_deeds(reading, apart).items()}
    sown = {one.id: moves.sown_at(one.id) for one in gone}
    begun = [at for at in sown.values() if at is not None]
    lit = light_used(reading, min(begun), end, moves) if begun and not weights_only else {}
    sold = {} if weights_only else sold_of_trays(reading, [one.id for one in gone], start)
    stood = {one.id: moves.place(one.id) for one in gone}
    paths = {place: reading.places.path(place) for place in set(stood.values())}
    found = []
    for one in gone:
        template_version = versions[one.version_id]
        cut_at, first, further, again = cuts.get(one.id) or _once(one, lost)
        found.append(
            GoneTray(
                one.id, one.batch_id, template_version.label(), template_version, sown[one.id], cut_at,
                one.ended_at, first, further, again, one.id in moves.shared, lost.get(one.id, ""),
                template_version.seed_for(one.grams_per_tray), lots.get(one.batch_id, ""),
                paths[stood[one.id]], moves.sowers.get(one.id, ""),
                uncut.get(one.id, ("", ""))[0] == "sold_live",
                *_lit(None if one.id in early else lit.get(one.id)), sold.get(one.id),
            )
        )  # fmt: skip
    return found


def gone_of_batch(reading: Reading, batch: int) -> list[GoneTray]:
    """The trays of a batch that left the rack."""
    mine = read_trays_of_batch(reading, batch)
    ends = [tray.ended_at for tray in mine if tray.ended_at is not None]
    if not ends:
        return []
    version = mine[0].version_id
    template = template_of_versions(reading, [version])[version]
    trays = gone_trays(reading, min(ends), max(ends) + timedelta(seconds=1), template)
    return [one for one in trays if one.batch == batch]


def _moves_of(
    reading: Reading, gone: Sequence[Gone], start: datetime, end: datetime, *, light: bool
) -> tuple[Moves, set[int]]:
    """What moved trays, of all that shared their light where that is asked; those sown long before."""
    if not light and len(gone) <= FEW:
        return read_moves_of(reading, [one.id for one in gone]), set()
    moves = read_moves(reading, start - LONGEST, end)
    early = {one.id for one in gone if one.id not in moves.deeds}
    more = read_moves_of(reading, early)
    whole = Moves(
        moves.deeds | more.deeds, moves.sowers | more.sowers, moves.shared | more.shared,
        moves.several | more.several,
    )  # fmt: skip
    return whole, early


def _once(one: Gone, lost: Mapping[int, str]) -> Cuts:
    """Of a tray that was cut once, or discarded uncut."""
    if one.id in lost:
        return None, 0.0, 0.0, 0.0
    return one.ended_at, one.cut_grams, 0.0, 0.0


def _cuts(deeds: Sequence[Deed]) -> Cuts:
    """Of a tray that was cut in parts, grew again, or was discarded."""
    at, grams, again, weighed = None, [0.0, 0.0, 0.0], False, True
    for deed in deeds:
        if deed.kind == "weigh" and deed.grams is not None:
            place = 2 if again else 0 if at is None else 1
            grams[place] += deed.grams
        if deed.kind == "weigh" or deed.kind.startswith("cut"):
            at = at or deed.at
            again = again or deed.keep or deed.kind == "cut_keep"
            weighed = weighed and deed.kind == "weigh"
    return at, grams[0] if weighed or any(grams) else None, grams[1], grams[2]


def _lit(use: Use | None) -> tuple[float | None, Decimal | None]:
    """What a tray had of light, kWh and money, where the lamps were known throughout."""
    if use is None or use.unknown_hours >= 1:
        return None, None
    return use.bill.kwh, use.bill.cost if use.bill.unpriced_kwh <= 0 else None
