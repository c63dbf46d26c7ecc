"""Where the room's rules begin and end: light, lamps, power, air, places, spots, tariffs, water."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest

from logbook.growing.bands import Band
from logbook.growing.currencies import UNSET, Currency
from logbook.growing.room.air import AirReading, air_from, air_words, held, mean_air, mould_caution
from logbook.growing.room.energy_bill import Bill
from logbook.growing.room.light import (
    Grid,
    Spot,
    Survey,
    from_lux,
    hours_needed,
    judge,
    lamp_kind,
    moles,
    percent_of_first,
    ppfd_needed,
    read_grid,
    uniformity,
)
from logbook.growing.room.places import Place, lack_words, place_name, spread_over
from logbook.growing.room.power import LampSet, circuit_amps, circuit_load, draw, kwh, worth
from logbook.growing.room.products import cautions
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.solution_use import Use
from logbook.growing.room.solutions import dilute, strength_words
from logbook.growing.room.tariffs import OtherHours, Tariff, price_at
from logbook.growing.room.tray_uses import tray_uses
from logbook.growing.room.water_reading import quality_from, water_from
from logbook.growing.step_functions import stretches, value_at
from logbook.growing.trays.stays import Stay
from logbook.growing.wall_hours import WallHours, lamp_words, wall_words
from logbook.text import Refused

START = datetime(2026, 4, 1, tzinfo=UTC)
HOUR = timedelta(hours=1)

# Light and lamps


def test_no_light_needs_no_hours_and_the_dark_gives_none() -> None:
    assert hours_needed(0.001, 0) == 0
    assert hours_needed(0.0009, 5) is None
    assert hours_needed(0.001, 5) == pytest.approx(5 / 3.6e-6)
    assert moles(100, 0) == 0
    assert ppfd_needed(0, 1) == 0
    assert ppfd_needed(1, 1 / 60) == pytest.approx(1 / 60e-6)
    with pytest.raises(Refused, match="at least a minute"):
        ppfd_needed(1, 0.016)
    for daily in (-0.1, -5):
        with pytest.raises(Refused, match="0 or more"):
            ppfd_needed(daily, 16)


def test_an_estimate_says_its_range_in_whole_units() -> None:
    assert from_lux(0, lamp_kind("sun")).words.startswith("estimate from lux for sun: 0 (0 to 0) ")
    assert "100 (87 to 118) µmol/m²/s" in from_lux(7_000, lamp_kind("white LED")).words
    assert [lamp_kind(name).name for name in ("HPS", "sunlight", "fluorescent")] == [
        "high-pressure sodium", "sun", "cool white fluorescent",
    ]  # fmt: skip


@pytest.mark.parametrize(("height", "percent"), [(160, 90), (140, 90), (160.5, 100), (139, 100)])
def test_like_height_is_within_a_centimetre(height: float, percent: float) -> None:
    later = Survey(START + HOUR, 180, height)
    assert percent_of_first([Survey(START, 200, 150), later])[1] == percent


@pytest.mark.parametrize(
    ("hours", "said", "then"),
    [(20, "", 20.0), (20.01, "little dark", 20.01), (23.999, "little dark", 23.999), (24.01, "No number", None)],
)  # fmt: skip
def test_days_of_more_than_20_hours_are_long_and_of_more_than_24_none(
    hours: float, said: str, then: float | None
) -> None:
    wanted = 100 * hours * 3600e-6
    judged = judge(100, 10, Band(wanted, 90))
    assert judged.hours_then == (None if then is None else pytest.approx(then))
    assert said in judged.words
    assert ("little dark" in judged.words) is (said == "little dark")


def test_a_minute_of_light_is_light_and_an_open_end_wants_nothing_below_it() -> None:
    assert "µmol/m²/s for 1 min" in judge(1, 1 / 60, Band(12, 14)).words
    assert judge(100, 10, Band(None, 2)).verdict == "too much"
    dark = judge(100, 10, Band(None, 0))
    assert (dark.verdict, dark.hours_then) == ("too much", 0)
    assert judge(200, 14, Band(10, 14), cost_per_lit_hour=Decimal(3)).cost_change == 0
    free = judge(200, 14, Band(12, 14), cost_per_lit_hour=Decimal(0))
    assert free.cost_change == 0
    assert "cost 0.000 more per day" in free.words


def test_a_lamp_set_in_words_and_none() -> None:
    bars = LampSet(4, 18.25, "LED bar", "4000 K", 0.1625, 120, 210, date(2025, 2, 1))
    assert bars.words() == (
        "4 × LED bar, 18.2 W each, 0.163 A, 4000 K, 21 cm above the shelf, bought 2025-02-01"
    )
    assert LampSet(1, 18).words("us") == "1 lamp, 18 W each"
    assert LampSet(0).words() == "no lamps"
    assert LampSet(0).draw.watts == 0
    assert LampSet(2, 18, height_mm=10).words("us") == "2 lamps, 18 W each, 0.39 in above the shelf"
    for wrong in ({"lamps": 201}, {"watts": 0.0}, {"height_mm": 9.9}, {"amps": 1.0}):
        with pytest.raises(Refused):
            replace(LampSet(2, 18), **wrong)


def test_amps_of_a_shelf_are_the_label_s_else_the_least_that_they_can_be() -> None:
    assert circuit_amps(LampSet(3, 20, amps=0.25, volts=120), 120) == (0.75, True)
    assert circuit_amps(LampSet(3, 20), 120) == (0.5, False)


# Power


def test_labels_round_amps_by_a_twentieth() -> None:
    assert draw(126, volts=120, amps=1).power_factor == 1
    with pytest.raises(Refused, match=r"126\.1 W cannot come from 120 V × 1 A = 120 VA"):
        draw(126.1, volts=120, amps=1)
    assert draw(10, volts=1, amps=20).power_factor == 0.5
    assert draw(0.5, 1).watts == 0.5


def test_a_single_lamp_is_meant_where_no_number_is_given() -> None:
    assert draw(18).watts == 18
    assert draw(18, power_factor=0.9).power_factor == 0.9
    assert (draw(18, 4, power_factor=0.9).watts, draw(18, 4, volts=230).watts) == (72, 72)


def test_less_than_a_gram_and_less_than_a_watt_hour_count() -> None:
    gave = worth(0.5, kwh_used=0.25, mol=0.125, cost=Decimal(0))
    assert (gave.grams_per_kwh, gave.grams_per_mol) == (2, 4)
    assert gave.cost_per_100_g == 0
    assert worth(1, kwh_used=0, mol=0, cost=Decimal("0.5")).cost_per_100_g == 50
    assert (kwh(0.5, 0.5), kwh(0, 5), kwh(5, 0)) == (0.00025, 0, 0)
    for watts, hours in ((-0.1, 1), (1, -0.1)):
        with pytest.raises(Refused, match="0 or more"):
            kwh(watts, hours)


def test_what_a_kwh_gave_in_words() -> None:
    gave = worth(300, kwh_used=1.5, mol=10, cost=Decimal("0.6"))
    assert gave.yield_words() == ["200 g per kWh", "30 g per mol"]
    assert gave.yield_words("us", "/") == ["7.05 oz/kWh", "1.06 oz/mol"]
    assert gave.cost_words(UNSET) == "0.200 per 100 g"
    assert gave.cost_words(Currency("USD"), "us", "/") == "0.057 USD/oz"
    assert (worth(0).cost_words(UNSET), worth(0).yield_words()) == ("", [])


@pytest.mark.parametrize(
    ("amps", "within", "said"),
    [
        (12.0, True, "Within: 12 A of 12 A (80 % of a 15 A breaker), 0 A left."),
        (11.5, True, "Within: 11.5 A of 12 A (80 % of a 15 A breaker), 0.5 A left."),
        (15.0, False, "is too much for a continuous load"),
        (15.1, False, "is too much and trips the breaker"),
    ],
)
def test_a_circuit_is_within_up_to_its_limit(amps: float, within: bool, said: str) -> None:
    load = circuit_load([amps], 15, 120)
    assert load.within is within
    assert said in load.words
    assert load.left_amps == pytest.approx(12 - amps)


# Air


def test_a_reading_holds_until_the_next_and_an_hour_at_most() -> None:
    readings = [AirReading(START + HOUR * at, 20, 50) for at in (2, 0, 0.5)]
    spans = [
        ((one.start - START) / HOUR, (one.end - START) / HOUR)
        for one in held(readings, START, START + 2.25 * HOUR)
    ]
    assert spans == [(0, 0.5), (0.5, 1.5), (2, 2.25)]
    assert mean_air([]) is None


def test_a_mean_weighs_readings_by_their_time() -> None:
    readings = [AirReading(START, 20, 40), AirReading(START + HOUR / 4, 24, 60)]
    found = mean_air(list(held(readings, START, START + HOUR)))
    assert found is not None
    assert (found.celsius, found.humidity, found.hours) == (23, 55, 1)


def test_damp_is_a_deficit_below_0_43_kpa() -> None:
    """At 20 °C 0.43 kPa are 81.60 % (FAO-56, equation 11, computed)."""
    for humidity, damp in ((81.5, False), (81.7, True)):
        readings = [AirReading(START + HOUR * at, 20, humidity) for at in range(6)]
        assert (mould_caution(readings, START, START + 24 * HOUR) is not None) is damp


def test_the_longest_damp_stretch_is_the_one_that_is_said() -> None:
    def damp(first: int, hours: int, *still: bool | None) -> list[AirReading]:
        marks = [*still, *[False] * hours]
        return [AirReading(START + HOUR * (first + at), 20, 95, marks[at]) for at in range(hours)]

    found = mould_caution([*damp(0, 7, True), *damp(10, 9, None)], START, START + 24 * HOUR)
    assert found is not None
    assert (found.since, found.hours, found.still) == (START + 10 * HOUR, 9, None)
    assert "Mould risk: 9 h damp with air that may be still." in found.words
    still = mould_caution(damp(0, 7, None, True), START, START + 24 * HOUR)
    assert still is not None
    assert "still air" in still.words
    moving = mould_caution(damp(0, 12), START, START + 24 * HOUR)
    assert moving is not None
    assert "moving air" in moving.words
    assert "for 12 h or more" in moving.words


def test_air_in_words_with_a_leaf() -> None:
    assert air_words(20, 50) == "VPD 1.17 kPa, dew point 9.3 °C"
    assert air_words(20, 50, 20).endswith("leaf to air 1.17 kPa")
    assert air_words(20, 100, 20, "us") == (
        "VPD 0.00 kPa, dew point 68 °F, leaf to air 0.00 kPa, "
        "the leaf is at or under the dew point: dew forms on it"
    )


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("21.4 63", (21.4, 63, None)), ("70 F 55 % still", (pytest.approx(21.111, abs=1e-3), 55, True)),
        ("moving, 21 60", (21, 60, False)), ("21 60 Still;", (21, 60, True)),
    ],
)  # fmt: skip
def test_air_on_a_line(text: str, read: tuple[float, float, bool | None]) -> None:
    assert air_from(text, "metric") == read
    for wrong in ("", "21", "21 60 5", "still"):
        with pytest.raises(Refused, match="temperature and humidity"):
            air_from(wrong, "metric")


# Places and spots


def shelf(number: int, slots: int = 2) -> Place:
    return Place(number, "shelf", f"S{number}", f"R/S{number}", (1, 1, number), 1, slots)


def test_a_full_shelf_is_said_in_the_singular_and_several_in_the_plural() -> None:
    assert lack_words(["R/S1"], 0, 3) == "R/S1 is full."
    assert lack_words(["R/S1", "R/S2"], 0, 3) == "R/S1 and R/S2 are full."
    assert lack_words(["R/S1"], 1, 3) == "R/S1 has room for only 1 of the 3 trays."
    assert lack_words(["R/S1", "R/S2"], 1, 3).startswith("R/S1 and R/S2 have room for only 1")
    spread = spread_over(4, [shelf(1)], [shelf(2, 1)], {})
    assert spread.notices == (
        "R/S1 has room for only 2 of the 4 trays.",
        "1 of them will go on R/S2.",
        "Every shelf is full: 1 tray has no slot yet; move them when there is room.",
    )
    assert spread_over(2, [shelf(1)], [shelf(2)], {}).notices == ()
    assert spread_over(2, [], [shelf(2)], {}).notices == ()


def test_a_place_says_its_room_its_light_and_its_hours() -> None:
    lit = replace(shelf(7), lamp_on=0, lamp_off=22 * 60 + 30)
    assert (lit.top, lit.lit, lit.hours_words) == (1, True, "lit 00–22:30")
    assert (shelf(7).lit, shelf(7).hours_words) == (False, "dark")
    assert replace(shelf(7), lamp_on=60).hours_words == "dark"
    assert place_name(" a/b ") == "a-b"


@pytest.mark.parametrize(("rows", "columns"), [(0, 1), (21, 1), (1, 0), (1, 51)])
def test_a_grid_has_20_rows_and_50_columns_at_most(rows: int, columns: int) -> None:
    assert Grid(20, 50).rows == 20
    with pytest.raises(Refused, match="1 to 20 rows and 1 to 50 columns"):
        Grid(rows, columns)


def test_a_grid_is_read_and_its_edges_are_inside() -> None:
    assert (read_grid("3"), read_grid("2 × 4")) == (Grid(3, 1), Grid(2, 4))
    with pytest.raises(Refused, match="Write 3 for front"):
        read_grid("2x4x1")
    for row, column in ((0, 1), (1, 0), (1, 4), (3, 1)):
        with pytest.raises(Refused, match=f"row {row}, column {column} is outside"):
            Grid(2, 3).check([Spot(row, column, 100)])
    with pytest.raises(Refused, match="light reading"):
        Grid(2, 3).check([Spot(1, 1, -5)])
    with pytest.raises(Refused, match="row 1, column 2 is given twice"):
        Grid(2, 3).check([Spot(2, 1, 100), Spot(1, 2, 100), Spot(1, 2, 100)])


def test_two_readings_tell_of_evenness_and_words_say_how() -> None:
    assert uniformity([100, 300]).words == (
        "the darkest spot has 50 % of the mean and 33 % of the brightest; CV 70.7 %"
    )
    half = uniformity([0, 200])
    assert (half.min_over_mean, half.min_over_max) == (0, 0)
    assert half.words.startswith("the darkest spot has 0 % of the mean")


# Tariffs and the shelf's past


def test_a_tariff_in_words_and_a_bill() -> None:
    evening = OtherHours(WallHours(17 * 60, 20 * 60), Decimal("0.40004"))
    assert Tariff(date(2026, 1, 1), Decimal("0.3"), (evening,), Currency("EUR")).words == (
        "0.30 EUR per kWh from 2026-01-01, 0.40004 EUR at 17:00–20:00"
    )
    assert Bill(1.152, Decimal("0.3456")).words(UNSET) == "1.15 kWh, 0.35"
    assert Bill(1.152, Decimal("34.56")).words(Currency("JPY")) == "1.15 kWh, 35 JPY"
    assert "covers 0.5 kWh of it" in Bill(1, Decimal(0), 0.5).words(UNSET)
    whole = Bill(1, Decimal(2), 3) + Bill(0.5, Decimal("0.25"), 0.125)
    assert whole == Bill(1.5, Decimal("2.25"), 3.125)


def test_other_hours_begin_with_their_first_minute_and_end_before_their_last() -> None:
    night = OtherHours(WallHours(22 * 60, 6 * 60, frozenset({0})), Decimal("0.5"))
    tariff = Tariff(date(2026, 4, 6), Decimal("0.2"), (night,))  # a Monday
    prices = [
        price_at([tariff], datetime(2026, 4, day, hour, minute, tzinfo=UTC), UTC)
        for day, hour, minute in (
            (5, 23, 59), (6, 0, 0), (6, 21, 59), (6, 22, 0), (7, 5, 59), (7, 6, 0), (7, 22, 0),
        )
    ]  # fmt: skip
    usual, night_price = tariff.per_kwh, night.per_kwh
    assert prices == [None, usual, usual, night_price, night_price, usual, usual]


def test_what_held_holds_from_its_moment_on() -> None:
    changes = [(START + 2 * HOUR, "b"), (START + HOUR, "a")]
    assert [value_at(changes, "-", START + HOUR * at) for at in (0.5, 1, 1.5, 2)] == list("-aab")
    cut = list(stretches(changes, "-", START + HOUR, START + 2 * HOUR))
    assert cut == [(START + HOUR, START + 2 * HOUR, "a")]


def test_what_a_shelf_used_is_shared_by_the_trays_that_stand_in_its_light() -> None:
    lamps = (START, LampSet(1, 100))
    past = ShelfPast(UTC, WallHours(0, 1440), (), (lamps,), ((START, 200.0),))
    stays = {
        1: [Stay(START, START + 4 * HOUR, 7, lit=True)],
        2: [Stay(START + 2 * HOUR, START + 4 * HOUR, 7, lit=True)],
        3: [Stay(START, START + 4 * HOUR, 7, lit=False), Stay(START, START + HOUR, None, lit=True)],
        4: [Stay(START, START + HOUR, 8, lit=True)],
    }
    found = tray_uses(stays, {7: past}, [Tariff(date(2026, 1, 1), Decimal("0.5"))])
    assert {tray: round(use.use.bill.kwh, 9) for tray, use in found.items()} == {
        1: 0.3, 2: 0.1, 3: 0, 4: 0,
    }  # fmt: skip
    assert [found[tray].use.lit_hours for tray in (1, 2, 3)] == [4, 2, 0]
    assert [round(found[tray].mol_m2, 9) for tray in (1, 2)] == [2.88, 1.44]
    assert past.hanging == LampSet(1, 100)
    assert ShelfPast(UTC).hanging is None
    assert ShelfPast(UTC, None, ((START, WallHours(0, 60)),)).hours_at(START) == WallHours(0, 60)


def test_light_is_of_the_survey_that_held_in_each_part_of_a_lit_stretch() -> None:
    """Lit from 06:00 to 10:00, measured anew at 07:00: one hour of 100 and three of 300 µmol."""
    surveys = ((START + 7 * HOUR, 300.0), (START, 100.0))
    past = ShelfPast(UTC, WallHours(360, 600), (), (), surveys)
    assert past.light(START, START + 24 * HOUR)[0] == pytest.approx(3600e-6 * (100 + 3 * 300))
    assert past.light(START + 6.5 * HOUR, START + 9 * HOUR)[0] == pytest.approx(3600e-6 * 650)


def test_hours_by_the_wall_in_words_and_their_limits() -> None:
    assert (wall_words(None), wall_words(65), wall_words(1440)) == ("", "01:05", "24:00")
    assert (lamp_words(None, 5), lamp_words(5, None), lamp_words(0, 0)) == (
        "none", "none", "00:00-00:00",
    )  # fmt: skip
    assert WallHours(0, 0 + 1440).off == 1440
    for on, off in ((1440, 0), (0, 1441), (-1, 5), (5, -1)):
        with pytest.raises(Refused):
            WallHours(on, off)


# Water and solutions


def test_water_of_a_line_in_any_order() -> None:
    assert quality_from("6.1 1.2").ec == 1.2
    assert quality_from("6.1").ec is None
    assert quality_from("6.1 1200 µS/cm").ec == 1.2
    assert (quality_from("ec: 1200 µS/cm").ec, quality_from("ec 1.2").ph) == (1.2, None)
    given = water_from("300ml ph 6.1 ec 1.2 mS/cm")
    assert (given.millilitres, given.ph, given.ec) == (300, 6.1, 1.2)
    assert water_from("").millilitres is None


@pytest.mark.parametrize(
    ("percent", "words"), [(0.5, "0.5 %"), (0.4999, "4999 ppm"), (0.00805, "80.5 ppm")]
)
def test_a_strength_is_in_percent_from_a_half_on(percent: float, words: str) -> None:
    assert strength_words(percent) == words


def test_what_to_pour_is_said_to_a_hundredth_of_a_millilitre_below_100() -> None:
    assert dilute(5.25, 0.02, 1000).words().startswith("3.81 ml of 5.25 % stock into 996 ml")
    assert dilute(10, 1, 1000).words().startswith("100 ml of 10 % stock into 900 ml")
    assert dilute(10, 1, 999).words().startswith("99.9 ml of")
    assert dilute(10, 1, 1000).words("us").startswith("3.4 floz of")
    assert dilute(12, 3, 1000).words().endswith("(1 part to 3 parts of water).")


@pytest.mark.parametrize(
    ("kind", "stock", "want", "first"),
    [
        ("peroxide", 8.0, 1.0, "label"), ("peroxide", 8.1, 1.0, "burns skin"),
        ("peroxyacetic", 5.0, 0.008, "label"), ("peroxyacetic", 5.0, 0.0081, "80 ppm"),
        ("chlorine", 5.0, 0.02, "label"), ("chlorine", 5.0, 0.0201, "200 ppm"),
        ("peroxide", None, 1.0, "label"), ("chlorine", 5.0, None, "label"),
        ("acid", 50.0, 5.0, "label"),
    ],
)  # fmt: skip
def test_what_is_too_strong_is_said_first(
    kind: str, stock: float | None, want: float | None, first: str
) -> None:
    assert first in cautions(kind, stock, want)[0]  # type: ignore[arg-type]


def test_a_use_in_words() -> None:
    assert (
        Use("trays", "brush", "bleach", want_percent=0.02).what == "trays, brush, bleach at 200 ppm"
    )
    assert Use("trays", "brush", "bleach").what == "trays, brush, bleach"
    assert Use("trays", "brush", want_percent=0.02).what == "trays, brush"
