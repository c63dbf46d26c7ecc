"""Each outside value of light, power, air, water and seed beside ours, and the difference.

    python -m tests.bench.outside_values

The sources stand beside the checks in tests/growing; here the numbers stand side by side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.growing.crops.seeding import pure_live_share, tray_area_cm2
from logbook.growing.measures import GRAMS, MILLILITRES
from logbook.growing.room.air import dew_point_c, saturation_kpa, vpd_kpa
from logbook.growing.room.light import daily_light, moles, ppfd_needed, uniformity
from logbook.growing.room.power import circuit_load, draw, kwh
from logbook.growing.room.solutions import dilute

GALLON, OUNCE = MILLILITRES["gal"], MILLILITRES["floz"]


@dataclass(frozen=True, slots=True)
class Value:
    """One number: where it is from, what it is, theirs and ours."""

    source: str
    what: str
    theirs: float
    ours: float


def light() -> Iterator[Value]:
    """Give daily light and evenness."""
    yield Value("Purdue HO-238-W", "1 µmol for 24 h, mol", 0.0864, moles(1, 86_400))
    for ppfd, theirs in ((105, 6.048), (210, 12.096), (315, 18.144)):
        yield Value("Gerovac 2016", f"{ppfd} µmol, 16 h, mol", theirs, daily_light(ppfd, 16))
    yield Value("definition", "PPFD for 12 mol in 16 h", 208.33, ppfd_needed(12, 16))
    nine = uniformity([180, 200, 220, 190, 210, 230, 170, 200, 200])
    yield Value("computed", "nine readings, mean", 200, nine.mean)
    yield Value("computed", "nine readings, min/mean", 0.85, nine.min_over_mean or 0.0)
    yield Value("computed", "nine readings, min/max", 0.739, nine.min_over_max or 0.0)
    yield Value("computed", "nine readings, CV %", 9.354, nine.cv_percent or 0.0)


def air() -> Iterator[Value]:
    """Give vapour pressure, deficit and dew point."""
    for celsius, theirs in ((15, 1.705), (18, 2.064), (24.5, 3.075), (25, 3.168)):
        yield Value("FAO-56", f"e°({celsius}), kPa", theirs, saturation_kpa(celsius))
    for celsius, humidity, deficit, dew in (
        (20, 50, 1.169, 9.27),
        (21, 55, 1.120, 11.62),
        (24, 60, 1.194, 15.76),
        (25, 85, 0.475, 22.30),
        (30, 60, 1.698, 21.39),
    ):
        where = f"{celsius} °C {humidity} %"
        yield Value("psychrolib", f"VPD {where}", deficit, vpd_kpa(celsius, humidity))
        ours = dew_point_c(celsius, humidity)
        yield Value("psychrolib", f"dew point {where}", dew, 0.0 if ours is None else ours)


def power() -> Iterator[Value]:
    """Give draws, circuits and costs."""
    drawn = draw(100, 1, volts=120, power_factor=0.55)
    yield Value("computed", "100 W at 0.55, VA", 181.8, drawn.volt_amps or 0.0)
    for breaker, amps in ((15, 12), (20, 16)):
        ours = circuit_load([1.0], breaker, 120).limit_amps
        yield Value("NEC 210.20(A)", f"{breaker} A breaker, amps for hours", amps, ours)
    for lamps, watts, cents in ((3, 19.3, 12), (6, 19.3, 24), (3, 41, 25)):
        ours = kwh(lamps * watts, 16) * 13
        yield Value("common practice", f"{lamps} × {watts} W, 16 h, cents", cents, ours)


def water_and_seed() -> Iterator[Value]:
    """Give dilutions, sizes and pure live seed."""
    for stock, theirs in ((5.25, 3.810), (6, 3.333), (8.25, 2.424)):
        ours = dilute(stock, 0.02, 1000).stock_ml
        yield Value("computed", f"200 ppm from {stock} %, ml/L", theirs, ours)
    whole = dilute(5, 0.1, 50)
    yield Value("published", "5 % to 0.1 %, parts water", 49, whole.water_ml / whole.stock_ml)
    for purity, germination, bulk in ((85, 75, 1.569), (96, 80, 1.302)):
        ours = 1 / pure_live_share(purity, germination)
        yield Value("TxDOT", f"g bulk per g, {purity} % × {germination} %", bulk, ours)
    yield Value("exact", "10 × 20 in tray, m²", 0.129032, tray_area_cm2(508, 254) / 10_000)
    yield Value("exact", "1 oz, g", 28.349523, GRAMS["oz"])


def main() -> None:
    """Print the table."""
    print(f"{'source':<18}{'what':<34}{'theirs':>11}{'ours':>12}{'difference':>12}")
    for part in (light, air, power, water_and_seed):
        for each in part():
            off = each.ours - each.theirs
            print(
                f"{each.source:<18}{each.what:<34}{each.theirs:>11.6g}{each.ours:>12.6g}{off:>+12.2g}"
            )


if __name__ == "__main__":
    main()
