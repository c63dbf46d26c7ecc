"""What a trial's trays had of light, air and electricity, from what the room's entries say."""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from functools import cache
from itertools import groupby

from logbook.actions.reading import Reading
from logbook.actions.room.air import nearest_air, room_or
from logbook.actions.room.lamps import shelf_pasts
from logbook.actions.room.lives import lives_since
from logbook.growing.days import DAY
from logbook.growing.measures import Units, hours_words, number_words
from logbook.growing.room.air import AirMean, Held, held, mean_air
from logbook.growing.room.outages import without
from logbook.growing.room.shelf_past import ShelfPast, Use
from logbook.growing.room.tray_uses import TrayUse, tray_uses
from logbook.growing.step_functions import seconds_of, stretches
from logbook.growing.trays.stays import Stay, stays_of
from logbook.growing.trays.tray_now import StoredTray
from logbook.growing.trials.record import Surroundings
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.lamps import read_tariffs
from logbook.store.reads.trays import read_trays

LampCost = tuple[Decimal | None, str, float | None]
"""What the lamps cost for a tray, or why that is not known, and what they used for it in kWh."""


def surroundings_of(reading: Reading, trays: Sequence[int]) -> dict[int, Surroundings]:
    """What each of these trays (ids) had around it up to its end, or now."""
    pasts = shelf_pasts(reading)
    lives = _lives(reading, read_trays(reading, trays))
    costs = _lamp_costs(reading, lives, pasts)
    air = _air_over(reading)
    return {
        tray: _around(life, pasts, reading.units, costs[tray], air(life))
        for tray, life in lives.items()
    }


def _lives(reading: Reading, trays: Sequence[StoredTray]) -> dict[int, tuple[Stay, ...]]:
    versions = reading.versions({tray.version_id for tray in trays})
    deeds = read_deeds(reading, [tray.id for tray in trays])
    return {
        tray.id: stays_of(versions[tray.version_id], deeds.get(tray.id, ()), reading.now)
        for tray in trays
    }


def _around(
    life: Sequence[Stay], pasts: Mapping[int, ShelfPast], units: Units, cost: LampCost,
    air: AirMean | None,
) -> Surroundings:  # fmt: skip
    days = lit = mol = measured_lit = measured_days = power_off = 0.0
    lamps: list[str] = []
    for one in life:
        past = pasts.get(one.place or 0)
        if past is None:
            continue
        whole = (one.end - one.start).total_seconds()
        power_off += whole - seconds_of(without([(one.start, one.end)], past.outages))
        if not one.lit:
            continue
        seconds = seconds_of(past.lit(one.start, one.end))
        its_days = (one.end - one.start).total_seconds() / DAY
        days, lit = days + its_days, lit + seconds
        if past.ppfd:
            mol += past.light(one.start, one.end)[0]
            measured_lit, measured_days = measured_lit + seconds, measured_days + its_days
        hung = stretches(past.lamps, None, one.start, one.end)
        lamps += [each.words(units) for _, _, each in hung if each is not None]
    enough = measured_lit > 0 and measured_lit >= lit / 2
    return Surroundings(
        light_days=days, lit_hours=lit / 3600 / days if days else None, lit_in_all=lit / 3600,
        unmeasured_hours=(lit - measured_lit) / 3600,
        ppfd=mol * 1e6 / measured_lit if enough else None,
        dli=mol / measured_days if enough else None, lamps=_one_after_another(lamps),
        lamp_cost=cost[0], lamp_lack=cost[1], lamp_kwh=cost[2], celsius=air.celsius if air else None,
        humidity=air.humidity if air else None, power_off=power_off / 3600,
    )  # fmt: skip


def _one_after_another(lamps: Sequence[str]) -> str:
    """Name the lamps that a tray had last, and those before them."""
    changes = [name for name, _ in groupby(lamps)]
    if len(changes) < 2:
        return "".join(changes)
    return f"{changes[-1]} (before: {', '.join(changes[:-1])})"


def _lamp_costs(
    reading: Reading, lives: Mapping[int, Sequence[Stay]], pasts: Mapping[int, ShelfPast]
) -> dict[int, LampCost]:
    """What the lamps cost for each tray, where lamps and prices are known throughout."""
    tariffs = read_tariffs(reading)
    begun = [life[0].start for life in lives.values() if life]
    lack = "" if begun else "not sown yet"
    if not any(past.lamps for past in pasts.values()):
        lack = "no lamps are entered"
    if lack:
        return dict.fromkeys(lives, (None, lack, None))
    uses = tray_uses(lives_since(reading, min(begun)), pasts, tariffs, light=False)
    return {
        tray: _lamp_cost(life, uses.get(tray, TrayUse()).use, priced=bool(tariffs))
        for tray, life in lives.items()
    }


def _lamp_cost(life: Sequence[Stay], use: Use, *, priced: bool) -> LampCost:
    """A tray's part, or what of its hours in the light is not known."""
    lit = [one for one in life if one.lit]
    astray = sum((one.end - one.start).total_seconds() for one in lit if one.place is None) / 3600
    unknown, unpriced = use.unknown_hours, use.bill.unpriced_kwh
    lacks = (
        (not lit, "never noted as under lights"),
        (astray >= 1, f"no shelf known for {hours_words(astray)} under lights"),
        (unknown >= 1, f"no lamps known for {hours_words(unknown)} of lit time"),
        (use.bill.kwh <= 0, "no lit hours on their shelf"),
    )
    lack = next((words for so, words in lacks if so), "")
    if lack:
        return None, lack, None
    if not priced:
        return None, "no price per kWh is entered", use.bill.kwh
    if unpriced > 0:
        return None, f"no price known for {number_words(unpriced, 2)} kWh of each", use.bill.kwh
    return use.bill.cost, "", use.bill.kwh


def _air_over(reading: Reading) -> Callable[[Sequence[Stay]], AirMean | None]:
    """What tells the mean air over a life; None where readings cover less than half of it."""
    room = room_or("", reading.places)

    @cache
    def held_in(one: Stay) -> list[Held]:
        """Read once for all trays that stood there together."""
        spot = reading.places.by_id.get(one.place or 0, room)
        readings = nearest_air(reading, spot, one.start, one.end)[1]
        return list(held(readings, one.start, one.end))

    def over(life: Sequence[Stay]) -> AirMean | None:
        mean = mean_air([stretch for one in life for stretch in held_in(one)])
        hours = sum((one.end - one.start).total_seconds() for one in life) / 3600
        return mean if mean is not None and mean.hours >= hours / 2 else None

    return over
