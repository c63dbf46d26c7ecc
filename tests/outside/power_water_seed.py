"""Units, circuits, dilutions, seed, and what a tray yields."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import fmean

from scipy import constants

from logbook.growing.crops.germination import LEAST_GERMINATION
from logbook.growing.crops.seeding import pure_live_share, tray_area_cm2
from logbook.growing.crops.starters import starters
from logbook.growing.measures import celsius, grams, millilitres, millimetres
from logbook.growing.quantities import tray_size
from logbook.growing.room.power import circuit_load
from logbook.growing.room.solutions import dilute
from tests.outside.check import Check

EXACT = "NIST Handbook 44, appendix C, exact values as a page of capacities quotes them"
SCIPY = "scipy.constants (CODATA and NIST SP 811), computed here"
NEC = "NEC 210.19(A), 210.20(A)"
KDHE = "Kansas Department of Health and Environment, Disinfecting with Clorox, example 2"
SHEET = "a laboratory's safety sheet on sodium hypochlorite"
CDC = "CDC, Best Practices for Environmental Cleaning, appendix E"
BUCKET = "CDC, How to make 0.1 % chlorine solution (2021)"
WHO = "WHO 2014, Infection prevention and control, annex G, table G.1"
ONTARIO = "Western University (Ontario), Disinfection, bleach solution"
TXDOT = "TxDOT, pure live seed"
LEAFLET = "a seed house's leaflet on pure live seed"
HARD = "a seed leaflet: 92 % germination and 5 % hard seed"
POUNDS = "a seed house's sheet: 1,221 lb for 1,000"
RULE = "7 CFR 201.31 (59 FR 64491)"
SARE = "SARE FNE20-966, final report: a 10×20 tray, in ounces"
BULLETIN = "Mississippi State Extension P2884, pea shoots, tray size not stated"

CFR = {
    40: "watercress", 50: "chive", 55: "carrot, celeriac, celery",
    60: "burdock, cardoon, dandelion, dill, leek, parsley, parsnip, sage, spinach, upland cress",
    65: "beet, chard, chicory, sorrel", 70: "asparagus, brussels sprout, cornsalad, endive, onion",
    75: "broadbean, broccoli, cabbage, cauliflower, chinese cabbage, chinese kale, cowpea, "
        "garden cress, kale, kohlrabi, mustard, pak choi, radish, rutabaga, salsify, soybean, "
        "spinach mustard, sweet corn",
    80: "collard, lettuce, pea, turnip",
}  # fmt: skip
"""Germination standards by percent, as 7 CFR 201.31 lists them."""


def units() -> Iterator[Check]:
    """What one unit is in the one that is kept."""
    for unit, ml in (("floz", 29.5735295625), ("pt", 473.176473)):
        yield Check(EXACT, f"1 {unit}, ml", ml, millilitres(f"1 {unit}"), 1e-9)
    for unit, g in (("oz", 28.349523125), ("lb", 453.59237)):
        yield Check(EXACT, f"1 {unit}, g", g, grams(f"1 {unit}"), 1e-9)
    yield Check(SCIPY, "1 in, mm", 1000 * constants.inch, millimetres("1 in"), 1e-9)
    yield Check(SCIPY, "1 ft, mm", 1000 * constants.foot, millimetres("1 ft"), 1e-9)
    yield Check(SCIPY, "1 gal, ml", 1e6 * constants.gallon_US, millilitres("1 gal"), 1e-6)
    for fahrenheit in (-4, 50, 70, 104):
        theirs = float(constants.convert_temperature(fahrenheit, "F", "C"))
        yield Check(SCIPY, f"{fahrenheit} °F, °C", theirs, celsius(f"{fahrenheit} F"), 1e-9)
    area = 200 * constants.inch**2 * 10_000
    yield Check(SCIPY, "10x20 tray, cm²", area, tray_area_cm2(*tray_size("10x20")), 1e-9)


def power() -> Iterator[Check]:
    """What a breaker carries for 3 h and more in US practice, A and W at 120 V."""
    for breaker, amps, watts in ((15, 12, 1440), (20, 16, 1920)):
        load = circuit_load([1.0], breaker, 120)
        yield Check(NEC, f"{breaker} A, amperes", amps, load.limit_amps, 1e-9)
        yield Check(NEC, f"{breaker} A, watts", watts, load.limit_volt_amps, 1e-9)


def water() -> Iterator[Check]:
    """Stock and water."""
    ounce, gallon = 29.5735295625, 3785.411784
    yield Check(KDHE, "410 mg/L in a gallon, fl oz of 5.25 %", 1,
                dilute(5.25, 0.0410, gallon).stock_ml / ounce, 0.005)  # fmt: skip
    yield Check(KDHE, "50 mg/L in 1,000 gallons, fl oz of 5.25 %", 122,
                dilute(5.25, 0.0050, 1000 * gallon).stock_ml / ounce, 0.5)  # fmt: skip
    yield Check(SHEET, "5.25 % one in ten, ppm", 5250, dilute(5.25, 0.525, 1000).want_ppm, 1e-6)
    for source, stock, want, parts in ((CDC, 3.5, 0.5, 6), (CDC, 5, 0.1, 49), (WHO, 5, 0.05, 99)):
        what = f"{stock} % to {want} %, parts of water"
        yield Check(source, what, parts, dilute(stock, want, 1000).parts_water, 1e-9)
    yield Check(WHO, "0.05 %, ppm", 500, dilute(5, 0.05, 1000).want_ppm, 1e-9)
    yield Check(BUCKET, "20 L at 0.1 %, ml of 5 %", 400, dilute(5, 0.1, 20_000).stock_ml, 1e-9)
    yield Check(
        ONTARIO, "1 L at 0.5 %, ml of 5.25 %", 100, dilute(5.25, 0.525, 1000).stock_ml, 1e-9
    )


def seed() -> Iterator[Check]:
    """Pure live seed: the share of a bag, and grams of it for a gram that comes up."""
    yield Check(TXDOT, "85 % × 75 %, share", 0.6375, pure_live_share(85, 75), 1e-9)
    for source, purity, germination, bulk in (
        (TXDOT, 85, 75, 1.569), (LEAFLET, 96, 80, 1.302), (HARD, 98, 97, 1.052),
        (POUNDS, 89, 92, 1.221),
    ):  # fmt: skip
        what = f"{purity} % × {germination} %, g of bulk per g"
        yield Check(source, what, bulk, 1 / pure_live_share(purity, germination), 0.001)
    for percent, kinds in CFR.items():
        for kind in kinds.split(", "):
            yield Check(RULE, f"{kind}, least %", percent, LEAST_GERMINATION[kind], 0)


def yields() -> Iterator[Check]:
    """Grams of a tray beside the starting guess, within what a guess is off by."""
    known = {each.name: each for each in starters()}
    pea = known["pea shoots"]
    guess, off = pea.expected_grams or 0, 2 * (pea.expected_grams or 0) * pea.spread_percent / 100
    yield Check(SARE, "pea shoots, 17.28 oz", 490, guess, off)
    yield Check(BULLETIN, "pea shoots, lowest", 170, guess, off)
    yield Check(BULLETIN, "pea shoots, highest", 227, guess, off)
    mixed = [known[name] for name in ("kale", "broccoli", "mizuna")]
    mean = fmean(each.expected_grams or 0 for each in mixed)
    spread = fmean(each.spread_percent for each in mixed) / 100
    yield Check(SARE, "kale, broccoli, mild salad mix: 7.31 oz", 207, mean, mean * spread)
