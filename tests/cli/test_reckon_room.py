"""`logbook reckon` for the room: keys, numbers, words, refusals."""

from __future__ import annotations

import json
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st

from logbook.cli.reckoning.reckon import reckon
from logbook.text import Refused
from tests.conftest import CommandLine


def run(*words: str) -> Result:
    return CliRunner().invoke(reckon, list(words))


def said(line: str) -> str:
    result = run(*line.split())
    assert result.exit_code == 0, (result.output, result.exception)
    return result.output


def answered(line: str) -> dict[str, Any]:
    found = json.loads(said(f"{line} --json"))
    assert isinstance(found, dict)
    return found


def test_light() -> None:
    # Nine readings computed with n−1; daily light by its definition; 12 mol in 16 h 40 min.
    found = answered("light --ppfd 180 200 220 190 210 230 170 200 200 --hours 16 --want-dli 12")
    assert found["mean_ppfd"] == pytest.approx(200)
    assert found["min_over_mean"] == pytest.approx(0.85)
    assert found["min_over_max"] == pytest.approx(0.739, abs=0.0005)
    assert found["cv_percent"] == pytest.approx(9.354, abs=0.0005)
    assert found["dli_mol_m2_day"] == pytest.approx(11.52)
    assert found["hours_needed"] == pytest.approx(16.6667, abs=0.0001)


@pytest.mark.parametrize(
    ("ppfd", "dli"),
    [("105", 6.048), ("210", 12.096), ("315", 18.144), ("120", 6.912), ("208.33", 12.0)],
)
def test_daily_light_of_one_reading(ppfd: str, dli: float) -> None:
    # Light of trials (Gerovac et al. 2016; Flores et al. 2024); daily light computed by its definition.
    found = answered(f"light --ppfd {ppfd} --hours 16")
    assert found["dli_mol_m2_day"] == pytest.approx(dli, abs=0.0005)
    assert (found["cv_percent"], found["hours_needed"]) == (None, None)


def test_light_from_lux_is_marked_as_an_estimate() -> None:
    # Thimijan & Heins 1983 (seen): 74 lx per µmol under cool-white fluorescent lamps.
    result = run("light", "--lux", "14800", "--lamp", "cool white fluorescent", "--json")
    found = json.loads(result.output)
    assert found["mean_ppfd"] == pytest.approx(200)
    assert found["estimated_from_lux"] is True
    assert "estimate" in said("light --lux 14800 lx 12000 lx --lamp fluorescent")


def test_light_in_words() -> None:
    words = said("light --ppfd 180,200,220 --hours 15h 30min --want-dli 12")
    assert "3 readings: PPFD 200 µmol/m²/s, 180 to 220" in words
    assert "DLI: 11.16 mol/m²/d in 15 h 30 min" in words
    assert "16 h 40 min" in words


def test_lamps_that_cannot_make_it_are_said() -> None:
    assert answered("light --ppfd 100 --want-dli 12")["can_be_met"] is False
    assert "more hours than a day has" in said("light --ppfd 100 --want-dli 12")
    assert "no light" in said("light --ppfd 0 --want-dli 12")


def test_power() -> None:
    # Computed: 4 × 18 W × 16 h = 1.152 kWh; × 0.30 = 0.3456.
    found = answered("power --watts 18 --lamps 4 --hours 16 --price 0.30")
    assert found["watts"] == 72
    assert found["kwh_per_day"] == pytest.approx(1.152)
    assert found["cost_per_day"] == pytest.approx(0.3456)
    assert (found["va"], found["power_factor"]) == (None, None)


def test_power_with_amps_or_a_power_factor() -> None:
    # Computed: 100 W at power factor 0.55 on 120 V is 181.8 VA and 1.515 A.
    found = answered("power --watts 100 --amps 1.515 --volts 120")
    assert found["va"] == pytest.approx(181.8, abs=0.05)
    assert found["power_factor"] == pytest.approx(0.55, abs=0.0005)
    assert answered("power --watts 100 W --power-factor 0.55 --volts 120 V")[
        "amps"
    ] == pytest.approx(1.515, abs=0.0005)


@pytest.mark.parametrize(("watts", "lamps", "cost"), [("19.3", 3, 0.12), ("19.3", 6, 0.24)])
def test_common_costs(watts: str, lamps: int, cost: float) -> None:
    # Common practice, no source: 12 and 24 cents a day at 0.13 a kWh.
    found = answered(f"power --watts {watts} --lamps {lamps} --hours 16 --price $0.13")
    assert found["cost_per_day"] == pytest.approx(cost, abs=0.005)


def test_power_in_words_carries_the_cautions() -> None:
    words = said("power --watts 41 --amps 0.35 A --volts 120 --hours 16 --price 0.13")
    assert "41 W, 42 VA, 0.35 A, power factor 0.98" in words
    assert "drip loop" in words


def test_circuit() -> None:
    # US practice, NEC 210.20(A) (seen): 15 A at 120 V carries 12 A, 1,440 W for hours on end.
    found = answered("circuit --amps 3 3 3 3 --breaker 15 --volts 120")
    assert found["continuous_limit_amps"] == pytest.approx(12)
    assert found["continuous_limit_watts"] == pytest.approx(1440)
    assert found["share_percent"] == pytest.approx(80)
    assert found["within"] is True
    over = answered("circuit --amps 12.1 --breaker 15 --volts 120")
    assert over["within"] is False
    assert "US practice" in over["words"]
    assert "electrician" in said("circuit --amps 12.1 --breaker 15 A --volts 120 V")


def test_air() -> None:
    # psychrolib (ASHRAE 2017), computed: 21 °C and 55 % → 1.120 kPa, 11.62 °C.
    found = answered("air --temp 21 --rh 55 --leaf 20")
    assert found["vpd_kpa"] == pytest.approx(1.120, abs=0.005)
    assert found["dew_point_c"] == pytest.approx(11.62, abs=0.05)
    # FAO-56 formula, computed: e°(20) − 0.55 e°(21)
    assert found["leaf_vpd_kpa"] == pytest.approx(2.338 - 0.55 * 2.487, abs=0.001)
    assert answered("air --temp 21C --rh 55%")["leaf_vpd_kpa"] is None


def test_air_in_fahrenheit() -> None:
    found = answered("air --temp 77F --rh 85 %")
    assert found["temperature_c"] == pytest.approx(25)
    assert found["vpd_kpa"] == pytest.approx(0.475, abs=0.005)  # psychrolib, computed
    assert "VPD 0.48 kPa, dew point 22.3 °C" in said("air --temp 77 F --rh 85")


def test_dilute() -> None:
    # Computed, weight in volume: 3.810 ml per litre.
    found = answered("dilute --stock 5.25% --want 200ppm --volume 10L")
    assert found["stock_ml"] == pytest.approx(38.10, abs=0.005)
    assert found["water_ml"] == pytest.approx(9961.90, abs=0.005)
    # Published (seen): 5 % → 0.1 % is 49 parts of water.
    assert answered("dilute --stock 5 % --want 0.1 % --volume 2 gal")[
        "parts_water"
    ] == pytest.approx(49)


def test_dilute_in_words_carries_the_cautions() -> None:
    words = said("dilute --stock 5.25% --want 200ppm --volume 10 L --product bleach")
    assert "38.1 ml of 5.25 % stock into 9.96 L of water makes 10 L at 200 ppm" in words
    assert "label is the law" in words
    assert "Never mix bleach" in words


def test_seed() -> None:
    # Density: UF/IFAS, Bolles 2019 (seen); the rest computed.
    line = "seed --per-cm2 1.86 --tray 10x20in --tsw 3.2 --purity 99 --germination 90"
    found = answered(line)
    assert found["seeds"] == pytest.approx(2400, abs=0.5)
    assert found["grams"] == pytest.approx(8.6195, abs=0.001)
    assert "8.62 g per tray" in said(line)
    assert answered("seed --per-cm2 1.86 --tray 10 x 20 in --tsw 3.2 g")["grams"] == pytest.approx(
        7.68, abs=0.001
    )


def test_seed_that_comes_up_badly_is_said() -> None:
    # 7 CFR 201.31 (seen): broccoli 75 %.
    words = said("seed --per-cm2 2 --tray 25x50cm --tsw 3 --germination 70 --crop broccoli")
    assert "75 % with hard seed counted in (7 CFR 201.31)" in words
    assert (
        'may be sold: a packet of up to 1 lb is then marked "Below Standard"' in words
    )  # 201.29 (seen)
    assert "The tray is 50 × 25 cm (19.7 × 9.8 in)." in words


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("light --ppfd -5", "0 to 5,000"),
        ("light --ppfd abc", "not a number"),
        ("light --ppfd nan", "not a number"),
        ("light --ppfd 20000", "Full sun"),
        ("light --ppfd 187,5", "two ways"),
        ("light --ppfd 200 --hours 30", "0 to 25 h"),
        ("light --ppfd 200 --hours -1", "0 to 25 h"),
        ("light --ppfd 200 --want-dli -1", "0 to 100"),
        ("light", "after --ppfd"),
        ("light --lux 1000", "kind of lamp"),
        ("light --lux 1000 --lamp candle", "known are"),
        ("power --watts 18 --lamps 0", "whole number from 1"),
        ("power --watts 0", "more than 0 W"),
        ("power --watts 18 --hours 16 --price -1", "must be 0 or more"),
        ("power --watts 18 --price 0.3", "--hours"),
        ("power --watts 18 --amps 1", "need volts"),
        ("power --watts 180 --amps 0.1 --volts 120", "check the label"),
        ("circuit --amps 1 --breaker 0 --volts 120", "more than 0"),
        ("circuit --amps 1 --breaker 15 --volts 0", "more than 0"),
        ("circuit --amps -1 --breaker 15 --volts 120", "0 to 1,000 A"),
        ("air --temp 21 --rh 130", "100 %, not"),
        ("air --temp 70 --rh 50", "70F"),
        ("air --temp warm --rh 50", "not a number"),
        ("dilute --stock 5.25 --want 200ppm --volume 10L", "needs a unit"),
        ("dilute --stock 100ppm --want 1% --volume 10L", "water only thins"),
        ("dilute --stock 5% --want 0ppm --volume 10L", "more than 0"),
        ("dilute --stock 5% --want 200ppm --volume 10", "needs L, ml or gal"),
        ("dilute --stock 5% --want 200ppm --volume 10 miles", "unknown unit"),
        ("seed --per-cm2 0 --tray 10x20in --tsw 3", "density"),
        ("seed --per-cm2 2 --tray big --tsw 3", "like 10x20in"),
        ("seed --per-cm2 2 --tray 10x20in --tsw 0", "thousand seeds"),
        ("seed --per-cm2 2 --tray 10x20in --tsw 3 --purity 120", "100 %, not"),
        ("seed --per-cm2 2 --tray 10x20in --tsw 3 --germination 0", "germination"),
    ],
)
def test_what_is_wrong_is_refused_in_a_sentence(line: str, words: str) -> None:
    result = run(*line.split())
    assert isinstance(result.exception, Refused), (result.output, result.exception)
    assert words in str(result.exception)
    assert result.output == ""


@pytest.mark.parametrize("command", ["light", "power", "circuit", "air", "dilute", "seed"])
def test_each_calculator_has_help_with_an_example(cli: CommandLine, command: str) -> None:
    shown = cli.bare("reckon", command, "--help").out
    assert f"logbook reckon {command} --" in shown


def test_wrong_usage_is_told_by_exit_2() -> None:
    assert run("air", "--temp", "21").exit_code == 2
    assert run("air", "--temp", "21", "--rh", "50", "--nonsense").exit_code == 2


texts = st.one_of(
    st.text(max_size=20),
    st.floats().map(str),
    st.floats(0, 300).map(lambda value: f"{value:.2f}"),
    st.sampled_from(["5%", "200ppm", "10 L", "70F", "10x20in", "16h", "1e308", "0", "1,5", "½"]),
)


@given(texts, texts, texts)
def test_any_text_is_answered_or_refused(one: str, two: str, three: str) -> None:
    for words in (
        ("light", f"--ppfd={one}", f"--hours={two}", f"--want-dli={three}", "--json"),
        ("power", f"--watts={one}", f"--lamps={two}", f"--hours={three}", "--json"),
        ("circuit", f"--amps={one}", f"--breaker={two}", f"--volts={three}", "--json"),
        ("air", f"--temp={one}", f"--rh={two}", f"--leaf={three}", "--json"),
        ("dilute", f"--stock={one}", f"--want={two}", f"--volume={three}", "--json"),
        ("seed", f"--per-cm2={one}", f"--tray={two}", f"--tsw={three}", "--json"),
    ):
        result = run(*words)
        assert result.exit_code in (0, 2) or isinstance(result.exception, Refused)
        if result.exit_code == 0:
            json.loads(result.output, parse_constant=pytest.fail)
