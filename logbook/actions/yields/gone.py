"""The trays that left the rack in a span, with all that their yield is reckoned from."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from logbook.actions.reading import Reading
from logbook.growing.trays.life import Deed
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.yields import Gone, read_discards, read_gone, read_sowings

Cuts = tuple[datetime | None, float | None, float, float]
"""When a tray was cut first; g of the first cut, of further ones of that harvest, of regrowth."""


def gone_trays(
    reading: Reading, start: datetime, end: datetime, template: int | None = None, *,
    light: bool = True,
) -> list[GoneTray]:  # fmt: skip
    """The trays that left the rack from start until before end, of one template (id) or of all.

    `light` says whether what lit them is wanted too.
    """
    gone = read_gone(reading, start, end, template)
    versions = reading.versions({one.version_id for one in gone})
    sown = read_sowings(reading, {one.batch_id for one in gone})
    lost = read_discards(reading, [one.id for one in gone if one.cut_grams is None])
    cuts = {
        tray: _cuts(deeds)
        for tray, deeds in read_deeds(
            reading, [one.id for one in gone if one.several or one.id in lost]
        ).items()
    }
    begun = min((at for at, _ in sown.values()), default=start)
    kwh = _kwh(reading, begun, end) if light else {}
    found = []
    for one in gone:
        template_version = versions[one.version_id]
        sown_at, person = sown.get(one.batch_id, (None, ""))
        cut_at, first, further, again = cuts.get(one.id) or _once(one, lost)
        found.append(
            GoneTray(
                one.id, one.batch_id, template_version.label(), template_version, sown_at, cut_at,
                one.ended_at, first, further, again, one.shared, lost.get(one.id, ""),
                template_version.seed_for(one.grams_per_tray), one.lot,
                reading.places.path(one.place_id), person, kwh.get(one.id),
            )
        )  # fmt: skip
    return found


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


def _kwh(reading: Reading, since: datetime, until: datetime) -> dict[int, float]:
    """What lit each tray in a time, kWh, by tray id; of those whose lamps were known."""
    from logbook.actions.room.lives import light_used

    used = light_used(reading, since, until)
    return {tray: one.bill.kwh for tray, one in used.items() if one.unknown_hours < 1}
