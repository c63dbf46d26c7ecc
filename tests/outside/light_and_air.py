"""Daily light, lux, vapour pressure, dew point."""

from __future__ import annotations

from collections.abc import Iterator

import psychrolib

from logbook.growing.room.air import dew_point_c, saturation_kpa, vapour_kpa, vpd_kpa
from logbook.growing.room.light import daily_light, from_lux, lamp_kind, moles
from tests.outside.check import Check

GROWER_PAGE = "Hort Americas, Conversion of instantaneous to integrated PPFD"
METER_PAGE = "Spectrum Technologies, formula of DLI with a quantum meter"
TALK = "Ohio State University, a talk on indoor farming"
LAMPS = "Thimijan & Heins 1983, HortScience 18(6), and Apogee's table after it"
FAO = "FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), example 3 and table 2.3"
NCL = "NCAR Command Language, satvpr_temp_fao56, its own example"
ASHRAE = "psychrolib (ASHRAE Handbook Fundamentals 2017), computed here"


def light() -> Iterator[Check]:
    """Daily light in mol m⁻² and lux, each as its source rounds it."""
    yield Check(GROWER_PAGE, "1 µmol for 24 h", 0.0864, moles(1, 86_400), 1e-9)
    yield Check(GROWER_PAGE, "1 µmol for 1 h", 0.0036, daily_light(1, 1), 1e-9)
    yield Check(METER_PAGE, "38.1 µmol for 12 h", 1.6, daily_light(38.1, 12), 0.05)
    yield Check(TALK, "100 µmol for 16 h", 6, daily_light(100, 16), 0.5)
    yield Check(TALK, "140 µmol for 16 h", 8, daily_light(140, 16), 0.5)
    for kind, lux, ppfd in (
        ("sun", 108_000, 2000), ("sun", 540, 10), ("sun", 32_400, 600),
        ("high-pressure sodium", 8_200, 100), ("high-pressure sodium", 24_600, 300),
        ("metal halide", 14_200, 200), ("metal halide", 71_000, 1000),
        ("cool white fluorescent", 14_800, 200), ("cool white fluorescent", 740, 10),
    ):  # fmt: skip
        yield Check(LAMPS, f"{lux} lx, {kind}", ppfd, from_lux(lux, lamp_kind(kind)).ppfd, 1e-9)


def air() -> Iterator[Check]:
    """Saturation pressure and deficit in kPa, dew point in °C."""
    for celsius, kpa in ((15, 1.705), (18, 2.064), (24.5, 3.075), (25, 3.168)):
        yield Check(FAO, f"e°({celsius})", kpa, saturation_kpa(celsius), 0.0005)
    yield Check(FAO, "mean e° of 15 and 24.5 °C", 2.39,
                (saturation_kpa(15) + saturation_kpa(24.5)) / 2, 0.005)  # fmt: skip
    yield Check(NCL, "e°(15)", 1.70535, saturation_kpa(15), 5e-6)
    yield Check(NCL, "e°(24.5)", 3.07465, saturation_kpa(24.5), 5e-6)
    psychrolib.SetUnitSystem(psychrolib.SI)
    for celsius, percent in (
        (15, 90), (18, 45), (20, 50), (21, 55), (22, 70), (24, 60), (25, 85), (27, 40), (30, 60),
    ):  # fmt: skip
        share, where = percent / 100, f"{celsius} °C, {percent} %"
        vapour = psychrolib.GetVapPresFromRelHum(celsius, share) / 1000
        deficit = psychrolib.GetSatVapPres(celsius) / 1000 - vapour
        dew = psychrolib.GetTDewPointFromRelHum(celsius, share)
        yield Check(ASHRAE, f"vapour at {where}", vapour, vapour_kpa(celsius, percent), 0.005)
        yield Check(ASHRAE, f"deficit at {where}", deficit, vpd_kpa(celsius, percent), 0.005)
        yield Check(ASHRAE, f"dew point at {where}", dew, dew_point_c(celsius, percent) or 0, 0.05)
