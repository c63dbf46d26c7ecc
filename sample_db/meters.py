"""What the invented room knows of its lamps, light, power, air and water.

Lamps and prices are written down on the first day; somebody walks round with the meter every few
weeks; a sensor on the first rack reports the air of the last week; the water is tested on Mondays.
"""

import json
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import Decimal
from functools import partial

from logbook.actions.room.air_feed import SENSOR, Feed
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.lamps import CircuitDraft, hang_lamps, set_circuit, set_tariff
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.room.upkeep import DutyDraft, check, set_duty
from logbook.actions.room.water import measure_water
from logbook.growing.days import day_of
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.room.upkeep import Interval
from logbook.growing.room.water import WaterReading
from logbook.growing.wall_hours import WallHours
from sample_db.days import DAYS_BEHIND
from sample_db.room import LONGER_NIGHT, RACKS
from sample_db.world import World

VOLTS = 230.0
AIR_RACK = "Rack 1"
AIR_DAYS = 7
AIR_EVERY = timedelta(minutes=15)
AIR_BATCH = 12
DAMP_NIGHT = 2
"""So many nights ago the fan stood still and the air was damp until morning."""
SURVEYS_AGO = (88, 60, 32, 4)


@dataclass(frozen=True, slots=True)
class Lamps:
    """The lamps over each shelf of a rack, bought so many days ago.

    `ppfd` is the mean at tray height when they were new, `left` the share of it that is left at
    each survey.
    """

    rack: str
    each: LampSet
    bought_ago: int
    ppfd: float
    left: tuple[float, float, float, float]


LAMPS = (
    Lamps("Rack 1", LampSet(4, 18, "LED bar", "4000 K", 0.09, VOLTS, 280), 200, 186, (1.0, 1.0, 0.99, 0.99)),
    Lamps("Rack 2", LampSet(3, 41, "LED panel", "full spectrum", 0.19, VOLTS, 300), 120, 214, (1.0, 0.99, 1.0, 0.98)),
    Lamps("Rack 3", LampSet(4, 28, "fluorescent tube", "6500 K", 0.14, VOLTS, 260), 640, 148, (1.0, 0.95, 0.9, 0.84)),
)  # fmt: skip
OTHER_SHELVES_AGO = 18
TARIFFS = (
    (DAYS_BEHIND + 30, Decimal("0.21"), ()),
    (40, Decimal("0.24"), (OtherHours(WallHours(18 * 60, 22 * 60), Decimal("0.31")),)),
)
"""Days ago, price a kWh, and other hours with their price."""
CIRCUITS = (
    CircuitDraft("left wall", 10, VOLTS, ("Rack 1", "Rack 2"), other_amps=0.4),
    CircuitDraft("right wall", 6, VOLTS, ("Rack 3",), other_amps=3.3),
)
_TRAYS = UseDraft("trays", "brush, soak 10 min, rinse, drain", "bleach", 5.25, 0.02, 20_000.0)
CLEANINGS = (
    (80, _TRAYS),
    (52, UseDraft("racks and shelves", "wipe down with hot water and soap, dry")),
    (45, _TRAYS),
    (24, UseDraft("seed, pea shoots", "soak 5 min, rinse twice", "peroxide, food grade", 3.0, 0.5, 4000.0)),
    (17, _TRAYS),
    (3, UseDraft("knives and scale", "wash, rinse, wipe with alcohol", "alcohol")),
)  # fmt: skip
DUTIES = (
    DutyDraft("trays", Interval(28.0), how="brush, soak 10 min, rinse, drain"),
    DutyDraft("racks", Interval(28.0), how="wipe down with hot water and soap, dry"),
    DutyDraft("cold store", Interval(0.5)),
    DutyDraft("scale", Interval(7.0), known_grams=500.0),
)
CHECKS = (("scale", 10, 60, 499.0), ("scale", 3, 60, 500.0), ("cold store", 1, 600, 4.1))
"""What was checked how many days ago, minutes after the room's day began, and what it showed."""


def await_meters(world: World) -> None:
    """Have everything written down at its moment."""
    days, put = world.days, world.agenda.put
    put(days.on(DAYS_BEHIND, 20), partial(_hang, world))
    for ago, price, others in TARIFFS:
        tariff = Tariff(days.today - timedelta(days=ago), price, others)
        world.await_act(days.on(min(ago, DAYS_BEHIND), 25), set_tariff, tariff)
    put(days.on(LONGER_NIGHT[2], 30), partial(_change_hours, world))
    for lamps, minute in zip(LAMPS, (0, 4, 8), strict=True):
        for left, ago in zip(lamps.left, SURVEYS_AGO, strict=True):
            put(days.on(ago, 200 + minute), partial(_survey, world, lamps, 1, left))
        put(days.on(OTHER_SHELVES_AGO, 210 + minute), partial(_survey, world, lamps, 2, 0.96))
    for ago in range(DAYS_BEHIND, 0, -1):
        if day_of(days.on(ago), days.hours.zone).weekday() == 0:
            put(days.on(ago, 5), partial(_test_water, world, ago))
    for ago, use in CLEANINGS:
        world.await_act(days.on(ago, 280), use_solution, use)
    for duty in DUTIES:
        world.await_act(days.on(70, 30), set_duty, duty)
    for name, ago, minute, value in CHECKS:
        world.await_act(days.on(ago, minute), check, name, value)
    world.await_act(days.now - timedelta(minutes=9), check, "cold store", 3.6)
    world.await_act(days.on(20, 285), use_solution, UseDraft("racks", ""))
    first = (days.now - timedelta(days=AIR_DAYS)).replace(second=0, microsecond=0)
    for batch in range(int(timedelta(days=AIR_DAYS) / (AIR_EVERY * AIR_BATCH))):
        moments = [first + AIR_EVERY * (AIR_BATCH * batch + step) for step in range(AIR_BATCH)]
        put(moments[-1], partial(_sense, world, moments))


def _hang(world: World, at: datetime) -> None:
    book = world.act(at)
    for lamps in LAMPS:
        bought = world.days.today - timedelta(days=lamps.bought_ago)
        hang_lamps(book, lamps.rack, replace(lamps.each, bought=bought))
    for circuit in CIRCUITS:
        set_circuit(book, circuit)


def _change_hours(world: World, at: datetime) -> None:
    name, number, *_ = LONGER_NIGHT
    rack = next(each for each in RACKS if each.name == name)
    draft = PlaceDraft(
        f"Shelf {number}", slots=rack.slots, lamp_on=rack.lamp_on, lamp_off=rack.lamp_off
    )
    change_place(world.act(at), f"{name}/Shelf {number}", draft)


def _survey(world: World, lamps: Lamps, shelf: int, left: float, at: datetime) -> None:
    spots = []
    for row in (1, 2, 3):
        for column in (1, 2, 3):
            slope = 1 + 0.07 * (row - 2) - (0.06 if column != 2 else -0.12)
            ppfd = round(lamps.ppfd * left * slope * world.meter.between(0.985, 1.015))
            spots.append(Spot(row, column, float(ppfd)))
    height = (lamps.each.height_mm or 0) - 45
    path = f"{lamps.rack}/Shelf {shelf}"
    write_survey(world.act(at), SurveyDraft(path, Grid(3, 3), tuple(spots), height))


def _test_water(world: World, ago: int, at: datetime) -> None:
    hard = ago < 14
    ph = round(world.meter.between(6.9, 7.3) if hard else world.meter.between(5.8, 6.4), 1)
    ec = round(world.meter.between(0.4, 0.7), 2)
    measure_water(world.act(at), WaterReading(ph, ec))


def _sense(world: World, moments: list[datetime], at: datetime) -> None:
    feed = Feed(world.act(at, SENSOR), AIR_RACK)
    for moment in moments:
        celsius, humidity, still = _air(world, moment)
        line = {"at": moment.isoformat(), "celsius": celsius, "humidity": humidity, "still": still}
        feed.take(json.dumps(line).encode())
    feed.write()


def _air(world: World, moment: datetime) -> tuple[float, float, bool]:
    """°C, % and whether the air stood still: warm and dry by light, cool and damper by dark."""
    hour = moment.astimezone(world.days.hours.zone).hour
    lit = 6 <= hour < 22
    celsius = world.meter.normal(22.2 if lit else 18.6, 0.35)
    humidity = world.meter.normal(56 if lit else 68, 1.8)
    night = world.ago(moment - timedelta(hours=12))
    still = not lit and night == DAMP_NIGHT
    if still:
        humidity = world.meter.normal(93, 1.2)
    return round(celsius, 1), round(min(humidity, 99.0), 1), still
