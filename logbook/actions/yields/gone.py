"""The trays that left the rack in a span, with all that their yield is reckoned from."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from decimal import Decimal

from logbook.actions.reading import Reading
from logbook.actions.room.lives import LONGEST, light_used
from logbook.actions.yields.sold import sold_of_trays
from logbook.growing.room.meter import Read
from logbook.growing.trays.life import Deed
from logbook.growing.yields.sold import Sold
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.moves import Moves, first_sown, read_moves, read_moves_of
from logbook.store.reads.templates import template_of_versions
from logbook.store.reads.trays import read_trays_of_batch
from logbook.store.reads.yields import Gone, read_gone, read_lot_names, read_uncut
from logbook.store.rows import unswept

Cuts = tuple[datetime | None, float | None, float, float]
"""When a tray was cut first; g of the first cut, of further ones of that harvest, of regrowth."""
FEW = 1_500
"""Of so many trays what moved them is read tray by tray, of more all of the time is."""


@unswept()
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
    stood = {id(deeds): _stood(deeds) for deeds in moves.deeds.values()}
    stands = {one.id: stood.get(id(moves.deeds.get(one.id)), (None, None)) for one in gone}
    begun = min((at for at, _ in stands.values() if at is not None), default=None)
    lit, sold = dict[int, Read](), dict[int, Sold]()
    if not weights_only:
        known = {one.id: (one.version_id, one.ended_at) for one in gone if one.id in moves.deeds}
        lit = light_used(reading, begun, end, moves, known) if begun else {}
        sold = sold_of_trays(reading, [one.id for one in gone], start)
    paths = {place: reading.places.path(place) for _, place in set(stands.values())}
    labels = {version: template.label() for version, template in versions.items()}
    seed = {
        (version, grams): versions[version].seed_for(grams)
        for version, grams in {(one.version_id, one.grams_per_tray) for one in gone}
    }
    live = {tray for tray, (kind, _) in uncut.items() if kind == "sold_live"}
    found = []
    for one in gone:
        cut_at, first, further, again = cuts.get(one.id) or _once(one, lost)
        sown_at, place = stands[one.id]
        found.append(
            GoneTray(
                one.id, one.batch_id, labels[one.version_id], versions[one.version_id], sown_at, cut_at,
                one.ended_at, first, further, again, one.id in moves.shared, lost.get(one.id, ""),
                seed[one.version_id, one.grams_per_tray], lots.get(one.batch_id, ""),
                paths[place], moves.sowers.get(one.id, ""),
                one.id in live,
                *_lit(None if one.id in early else lit.get(one.id)), sold.get(one.id),
            )
        )  # fmt: skip
    return found


def _stood(deeds: Sequence[Deed]) -> tuple[datetime | None, int | None]:
    """When a tray was sown first, and where it was put last (place id)."""
    sown = [each.at for each in deeds if each.kind == "sow"]
    put = [each for each in deeds if each.kind != "change"]
    place = max(put, key=lambda each: each.entry).place if put else None
    return min(sown, default=None), place


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
    first = min(start, first_sown(reading, start, min(end, start + LONGEST)) or start)
    beside = first_sown(reading, first, start) or first
    moves = read_moves(reading, max(min(first, beside), start - LONGEST), end)
    early = {one.id for one in gone if one.id not in moves.deeds}
    if not early:
        return moves, early
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


def _lit(read: Read | None) -> tuple[float | None, Decimal | None]:
    """What a tray had of light, kWh and money, where the lamps were known throughout."""
    if read is None or read.unknown >= 3600:
        return None, None
    return read.kwh, read.cost if read.unpriced_kwh <= 0 else None
