"""Who may have got what is in no pack lot: the book can't say, so all of them are named."""

from collections.abc import Iterator, Mapping

from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.way import Way
from logbook.actions.reading import Reading
from logbook.growing.days import day_of
from logbook.growing.orders.wishes import mix_on
from logbook.growing.packs.flow import Node
from logbook.growing.packs.lots import LEAST
from logbook.growing.packs.trace import MayHaveGot
from logbook.store.reads.orders import read_customers, read_mixes, read_packed
from logbook.store.reads.packs import grams_from_lots
from logbook.store.reads.templates import template_of_versions
from logbook.store.rows import grouped


def may_have_got(reading: Reading, way: Way, grams: Mapping[Node, float]) -> Iterator[MayHaveGot]:
    """Packs, or a part of them, from no lot, of crops whose cuts are in none, while these kept; `grams` as followed."""
    cuts = [
        way.cuts[node.id] for node in grams if node.what == "unaccounted" and node.id in way.cuts
    ]
    versions = reading.versions({way.trays[cut.tray].version_id for cut in cuts})
    crop_of = template_of_versions(reading, versions)
    kept = [
        (crop_of[version], day_of(cut.at, reading.zone), versions[version].keeps)
        for cut in cuts
        for version in (way.trays[cut.tray].version_id,)
    ]
    if not kept:
        return
    known, crops = {each.id: each for each in read_customers(reading)}, crop_names(reading)
    mixes = grouped((mix.id, mix) for mix in read_mixes(reading))
    packed = read_packed(reading, min(day for _, day, _ in kept))
    kept_share = reading.about.kept
    lotted = grams_from_lots(reading, [each.entry for each in packed])
    for each in packed:
        shares = mix_on(mixes[each.mix], each.day).shares if each.mix else {each.template: 1.0}
        if (
            each.pack_grams is None
            or each.packs * each.pack_grams <= lotted.get(each.entry, 0.0) * kept_share + LEAST
            or not any(
                crop in shares and day <= each.day <= day + keeps for crop, day, keeps in kept
            )
        ):
            continue
        who = known[each.customer]
        name = crops.get(each.template or 0) or mixes[each.mix or 0][-1].name
        yield MayHaveGot(who.name, who.contact, name, each.day, each.packs)
