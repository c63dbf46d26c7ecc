"""What a trial's trays had of light, air and electricity, from what the room's entries say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from logbook.actions.reading import Reading
from logbook.actions.room.air import nearest_air
from logbook.actions.room.lamps import shelf_pasts
from logbook.growing.days import DAY
from logbook.growing.measures import Units, hours_words, number_words
from logbook.growing.room.air_series import Held, held, mean_air
from logbook.growing.room.places import Place
from logbook.growing.room.power import LampSet
from logbook.growing.room.shelf_past import ShelfPast, TrayUse, tray_uses
from logbook.growing.step_functions import seconds_of, stretches
from logbook.growing.trays.stays import Stay, stays_of
from logbook.growing.trials.record import Surroundings
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.lamps import read_tariffs
from logbook.store.reads.trays import StoredTray, read_trays, read_trays_since


def surroundings_of(reading: Reading, trays: Sequence[int]) -> dict[int, Surroundings]:
    """What each of these trays (ids) had around it up to its end, or now."""
    pasts = shelf_pasts(reading)
    lives = _lives(reading, read_trays(reading, trays), reading.now)
    costs = _lamp_costs(reading, lives, pasts)
    air = _Air(reading, reading.places)
    return {
        tray: _around(life, pasts, reading, costs[tray], air.over(life))
        for tray, life in lives.items()
    }


def _lives(
    reading: Reading, trays: Sequence[StoredTray], now: datetime
) -> dict[int, tuple[Stay, ...]]:
    versions = reading.versions({tray.version_id for tray in trays})
    deeds = read_deeds(reading, [tray.id for tray in trays])
    return {
        tray.id: stays_of(versions[tray.version_id], deeds.get(tray.id, ()), now) for tray in trays
    }


def _around(
    life: Sequence[Stay], pasts: Mapping[int, ShelfPast], reading: Reading, cost: LampCost,
    air: tuple[float, float] | None,
) -> Surroundings:  # fmt: skip
    days = lit = mol = measured_lit = measured_days = 0.0
    lamps: list[str] = []
    for one in life:
        past = pasts.get(one.place or 0)
        if not one.lit or past is None:
            continue
        seconds = seconds_of(past.lit(one.start, one.end))
        its_days = (one.end - one.start).total_seconds() / DAY
        days, lit = days + its_days, lit + seconds
        if past.ppfd:
            mol += past.light(one.start, one.end)[0]
            measured_lit, measured_days = measured_lit + seconds, measured_days + its_days
        lamps += _lamp_words(past, one, reading.units)
    enough = measured_lit > 0 and measured_lit >= lit / 2
    return Surroundings(
        light_days=days,
        lit_hours=lit / 3600 / days if days else None,
        lit_in_all=lit / 3600,
        unmeasured_hours=(lit - measured_lit) / 3600,
        ppfd=mol * 1e6 / measured_lit if enough else None,
        dli=mol / measured_days if enough else None,
        lamps=_one_after_another(lamps),
        lamp_cost=cost.cost,
        lamp_lack=cost.lack,
        celsius=air[0] if air else None,
        humidity=air[1] if air else None,
    )


def _lamp_words(past: ShelfPast, one: Stay, units: Units) -> list[str]:
    none: LampSet | None = None
    return [
        lamps.words(units)
        for _, _, lamps in stretches(past.lamps, none, one.start, one.end)
        if lamps is not None
    ]


def _one_after_another(lamps: Sequence[str]) -> str:
    """Name the lamps that a tray had last, and those before them."""
    changes = [name for name, _ in groupby(lamps)]
    if len(changes) < 2:
        return "".join(changes)
    return f"{changes[-1]} (before: {', '.join(changes[:-1])})"


@dataclass(frozen=True, slots=True)
class LampCost:
    """What the lamps cost for a tray, or why that is not known."""

    cost: float | None = None
    lack: str = ""


def _lamp_costs(
    reading: Reading, lives: Mapping[int, Sequence[Stay]], pasts: Mapping[int, ShelfPast]
) -> dict[int, LampCost]:
    """What the lamps cost for each tray, where lamps and prices are known throughout."""
    tariffs = read_tariffs(reading)
    begun = [life[0].start for life in lives.values() if life]
    lack = ""
    if not any(past.lamps for past in pasts.values()):
        lack = "no lamps are written down"
    elif not tariffs:
        lack = "no price of electricity is written down"
    if not begun or lack:
        return dict.fromkeys(lives, LampCost(lack=lack or "not sown yet"))
    everyone = _lives(reading, read_trays_since(reading, min(begun)), reading.now)
    uses = tray_uses(everyone, pasts, tariffs)
    return {tray: _lamp_cost(life, uses.get(tray, TrayUse())) for tray, life in lives.items()}


def _lamp_cost(life: Sequence[Stay], had: TrayUse) -> LampCost:
    """A tray's part, or what of its hours in the light is not known."""
    use = had.use
    lit = [one for one in life if one.lit]
    astray = sum((one.end - one.start).total_seconds() for one in lit if one.place is None) / 3600
    if not lit:
        return LampCost(lack="never noted as in the light")
    if astray >= 1:
        return LampCost(lack=f"no shelf known for {hours_words(astray)} in the light")
    if use.unknown_hours >= 1:
        return LampCost(lack=f"no lamps known for {hours_words(use.unknown_hours)} of lit time")
    if use.bill.unpriced_kwh > 0:
        unpriced = number_words(use.bill.unpriced_kwh, 2)
        return LampCost(lack=f"no price known for {unpriced} kWh of each")
    if use.bill.kwh <= 0:
        return LampCost(lack="no lit hours on their shelf")
    return LampCost(use.bill.cost)


@dataclass
class _Air:
    """Air over stretches, each read once: the trays of a trial stand together."""

    reading: Reading
    places: Sequence[Place]

    def __post_init__(self) -> None:
        self._by_id = {place.id: place for place in self.places}
        self._room = next((place for place in self.places if place.kind == "room"), None)
        self._read: dict[Stay, list[Held]] = {}

    def over(self, life: Sequence[Stay]) -> tuple[float, float] | None:
        """Mean °C and % over a life; None where readings cover less than half of it."""
        found = [stretch for one in life for stretch in self._held(one)]
        mean = mean_air(found)
        hours = sum((one.end - one.start).total_seconds() for one in life) / 3600
        if mean is None or mean.hours < hours / 2:
            return None
        return mean.celsius, mean.humidity

    def _held(self, one: Stay) -> list[Held]:
        if one not in self._read:
            spot = self._by_id.get(one.place or 0) or self._room
            readings = (
                nearest_air(self.reading, spot, one.start, one.end)[1] if spot is not None else []
            )
            self._read[one] = list(held(readings, one.start, one.end))
        return self._read[one]
