"""What the invented room knows of its lamps, light, power, air and water.

Lamps and prices are written down on the first day; somebody walks round with the meter every few
weeks; a sensor on the first rack reports the air of the last week; the water is tested on Mondays.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import partial

from logbook.growing.days import day_of, local
from sample_db.days import DAYS_BEHIND
from sample_db.world import World

VOLTS = 230.0
SENSOR = "sensor"
AIR_DAYS = 7
AIR_EVERY = timedelta(minutes=15)
AIR_BATCH = 12
DAMP_NIGHT = 2
"""So many nights ago the fan stood still and the air was damp until morning."""
SURVEYS_AGO = (88, 60, 32, 4)


@dataclass(frozen=True, slots=True)
class Lamps:
    """The lamps over each shelf of a rack; watts and amperes of one, mm above the shelf.

    `ppfd` is the mean at tray height when they were new, `left` the share of it that is left at
    each survey.
    """

    rack: str
    count: int
    kind: str
    light: str
    watts: float
    amps: float
    height_mm: float
    bought_days_ago: int
    ppfd: float
    left: tuple[float, float, float, float]


LAMPS = (
    Lamps("Rack 1", 4, "LED bar", "4000 K", 18, 0.09, 280, 200, 186, (1.0, 1.0, 0.99, 0.99)),
    Lamps("Rack 2", 3, "LED panel", "full spectrum", 41, 0.19, 300, 120, 214, (1.0, 0.99, 1.0, 0.98)),
    Lamps("Rack 3", 4, "fluorescent tube", "6500 K", 28, 0.14, 260, 640, 148, (1.0, 0.95, 0.9, 0.84)),
)  # fmt: skip
OTHER_SHELVES_AGO = 18
TARIFFS: tuple[tuple[int, float, tuple[tuple[int, int, float], ...]], ...] = (
    (DAYS_BEHIND + 30, 0.21, ()),
    (40, 0.24, ((18 * 60, 22 * 60, 0.31),)),
)
"""Days ago, price a kWh, and other hours (minutes after midnight) with their price."""
CIRCUITS: tuple[tuple[str, float, float, tuple[str, ...]], ...] = (
    ("left wall", 10, 0.4, ("Rack 1", "Rack 2")),
    ("right wall", 6, 3.3, ("Rack 3",)),
)
"""Name, breaker in A, what else hangs on it in A, racks."""
Cleaning = tuple[str, str, str, float | None, float | None, float | None]
CLEANINGS: tuple[tuple[int, Cleaning], ...] = (
    (80, ("trays", "brush, soak 10 min, rinse, drain", "bleach", 5.25, 0.02, 20_000.0)),
    (52, ("racks and shelves", "wipe down with hot water and soap, dry", "", None, None, None)),
    (45, ("trays", "brush, soak 10 min, rinse, drain", "bleach", 5.25, 0.02, 20_000.0)),
    (24, ("seed, pea shoots", "soak 5 min, rinse twice", "peroxide, food grade", 3.0, 0.5, 4000.0)),
    (17, ("trays", "brush, soak 10 min, rinse, drain", "bleach", 5.25, 0.02, 20_000.0)),
    (3, ("knives and scale", "wash, rinse, wipe with alcohol", "alcohol", None, None, None)),
)
LONGER_NIGHT = ("Rack 2/Shelf 3", 30, (5 * 60 + 30, 19 * 60))
"""A shelf, how many days ago its lamp hours were changed, and what they were before."""


def await_metering(world: World) -> None:
    """Have everything written down at its moment."""
    days, agenda = world.days, world.agenda
    agenda.put(days.on(DAYS_BEHIND, 20), partial(_furnish, world))
    for ago, price, others in TARIFFS:
        at = days.on(min(ago, DAYS_BEHIND), 25)
        since = days.today - timedelta(days=ago)
        agenda.put(at, partial(_tariff, world, since, price, others))
    agenda.put(days.on(LONGER_NIGHT[1], 30), partial(_hours, world))
    for survey, ago in enumerate(SURVEYS_AGO):
        agenda.put(days.on(ago, 200), partial(_walk_with_meter, world, survey))
    agenda.put(days.on(OTHER_SHELVES_AGO, 210), partial(_other_shelves, world))
    for ago in range(DAYS_BEHIND, 0, -1):
        if day_of(days.on(ago), days.hours.zone).weekday() == 0:
            agenda.put(days.on(ago, 5), partial(_test_water, world, ago))
    for ago, cleaning in CLEANINGS:
        agenda.put(days.on(ago, 280), partial(_clean, world, cleaning))
    first = days.now - timedelta(days=AIR_DAYS)
    batches = int(timedelta(days=AIR_DAYS) / (AIR_EVERY * AIR_BATCH))
    for batch in range(batches):
        start = (first + AIR_EVERY * AIR_BATCH * batch).replace(second=0, microsecond=0)
        end = start + AIR_EVERY * (AIR_BATCH - 1)
        agenda.put(end, partial(_sense, world, start))


def _entry(world: World, kind: str, at: datetime, place: str = "", **more: str) -> int:
    return world.diary.entry(
        kind,
        (),
        at,
        more.get("by") or world.by(at),
        place=world.shelves.named(place).id if place else None,
        chore=more.get("chore", ""),
        note=more.get("note", ""),
    )


def _furnish(world: World, at: datetime) -> None:
    for lamps in LAMPS:
        for shelf in _shelves(world, lamps.rack):
            entry = _entry(world, "lamps", at, shelf)
            world.diary.add(
                "lamp_set",
                entry_id=entry,
                lamps=lamps.count,
                kind=lamps.kind,
                light=lamps.light,
                watts=lamps.watts,
                amps=lamps.amps,
                volts=VOLTS,
                height_mm=lamps.height_mm,
                bought=world.days.today - timedelta(days=lamps.bought_days_ago),
            )
    for name, breaker, other, racks in CIRCUITS:
        entry = _entry(world, "circuit", at)
        world.diary.add(
            "circuit",
            entry_id=entry,
            name=name,
            name_key=name,
            breaker_amps=breaker,
            volts=VOLTS,
            share_percent=80.0,
            other_amps=other,
            gone=False,
        )
        for rack in racks:
            for shelf in _shelves(world, rack):
                place = world.shelves.named(shelf).id
                world.diary.add("circuit_shelf", entry_id=entry, place_id=place)


def _shelves(world: World, rack: str) -> list[str]:
    return [path for path in world.shelves.paths.values() if path.startswith(f"{rack}/")]


def _tariff(
    world: World,
    since: date,
    price: float,
    others: Sequence[tuple[int, int, float]],
    at: datetime,
) -> None:
    entry = _entry(world, "tariff", at)
    world.diary.add("tariff", entry_id=entry, since=since, per_kwh=price)
    for position, (starts, ends, other) in enumerate(others):
        world.diary.add(
            "tariff_hours",
            entry_id=entry,
            position=position,
            starts=starts,
            ends=ends,
            per_kwh=other,
        )


def _hours(world: World, at: datetime) -> None:
    path, _, (was_on, was_off) = LONGER_NIGHT
    place = world.shelves.named(path)
    entry = _entry(world, "hours", at, path, note="two hours more in the evening")
    world.diary.add(
        "lamp_hours",
        entry_id=entry,
        lamp_on=place.lamp_on,
        lamp_off=place.lamp_off,
        was_on=was_on,
        was_off=was_off,
    )


def _walk_with_meter(world: World, survey: int, at: datetime) -> None:
    for place, lamps in enumerate(LAMPS):
        moment = at + timedelta(minutes=4 * place)
        _survey(world, moment, f"{lamps.rack}/Shelf 1", lamps.ppfd * lamps.left[survey], lamps)


def _other_shelves(world: World, at: datetime) -> None:
    for place, lamps in enumerate(LAMPS):
        moment = at + timedelta(minutes=6 * place)
        _survey(world, moment, f"{lamps.rack}/Shelf 2", lamps.ppfd * 0.96, lamps)


def _survey(world: World, at: datetime, shelf: str, mean: float, lamps: Lamps) -> None:
    if at > world.days.now:
        return
    entry = _entry(world, "light", at, shelf)
    world.diary.add(
        "light_survey",
        entry_id=entry,
        spot_rows=3,
        spot_columns=3,
        height_mm=lamps.height_mm - 45,
        lux_lamp="",
    )
    for row in (1, 2, 3):
        for column in (1, 2, 3):
            slope = 1 + 0.07 * (row - 2) - (0.06 if column != 2 else -0.12)
            ppfd = round(mean * slope * world.meter.between(0.985, 1.015))
            world.diary.add(
                "light_spot",
                entry_id=entry,
                spot_row=row,
                spot_column=column,
                ppfd=float(ppfd),
                lux=None,
            )


def _test_water(world: World, ago: int, at: datetime) -> None:
    entry = _entry(world, "measure", at)
    hard = ago < 14
    ph = round(world.meter.between(6.9, 7.3) if hard else world.meter.between(5.8, 6.4), 1)
    ec = round(world.meter.between(0.4, 0.7), 2)
    world.diary.watered(entry, None, ph=ph, ec=ec)


def _clean(
    world: World,
    cleaning: Cleaning,
    at: datetime,
) -> None:
    purpose, method, product, stock, want, volume = cleaning
    entry = _entry(world, "clean", at)
    world.diary.add(
        "solution_use",
        entry_id=entry,
        purpose=purpose,
        method=method,
        product=product,
        stock_percent=stock,
        want_percent=want,
        volume_ml=volume,
    )


def _sense(world: World, start: datetime, at: datetime) -> None:
    place = world.shelves.named("Rack 1")
    entry = _entry(world, "air", at, place.path, by=SENSOR, chore="feed")
    for step in range(AIR_BATCH):
        moment = start + AIR_EVERY * step
        celsius, humidity, still = _air(world, moment)
        world.diary.add(
            "air_reading",
            entry_id=entry,
            place_id=place.id,
            at=moment,
            celsius=celsius,
            humidity=humidity,
            still=still,
        )


def _air(world: World, moment: datetime) -> tuple[float, float, bool]:
    """Give °C, % and whether the air stood still: warm and dry by light, cool and damper by dark."""
    hour = local(moment, world.days.hours.zone).hour
    lit = 6 <= hour < 22
    celsius = world.meter.normal(22.2 if lit else 18.6, 0.35)
    humidity = world.meter.normal(56 if lit else 68, 1.8)
    night = world.ago(moment - timedelta(hours=12))
    still = not lit and night == DAMP_NIGHT
    if still:
        humidity = world.meter.normal(93, 1.2)
    return round(celsius, 1), round(min(humidity, 99.0), 1), still
