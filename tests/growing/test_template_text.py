"""Templates as TOML: what a grower may write, and that what is written reads back."""

from __future__ import annotations

import math
import tomllib
from dataclasses import replace
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.starters import starters
from logbook.growing.crops.template_fields import mapping_of
from logbook.growing.crops.template_text import template_from, template_words
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.text import Refused, clean
from tests.growing.test_fold_properties import crops
from tests.room import DAY, FIELD_TOML, HOUR, field_test

WORDS = st.text(max_size=30).map(lambda text: clean(text, lines=False)[:30].strip())
NAMES = WORDS.filter(bool)
NUMBERS = (
    st.floats(0.01, 10_000).map(lambda value: round(value, 3)).filter(lambda value: value >= 1)
)


def test_a_template_file_is_read_whole() -> None:
    crop = field_test()
    assert crop.name == crop.crop == "field test"
    assert (crop.seed_grams, crop.soak_seconds, crop.expected_grams, crop.spread_percent) == (
        100,
        4 * HOUR,
        500,
        15,
    )
    assert crop.stages == (
        Stage("weighted", 4 * DAY, "weight", "dark", "mist", 1, 1),
        Stage("blackout", DAY, "lid", "dark"),
        Stage("light", None, "none", "lit", "bottom", 1),
    )
    assert crop.cut == CutWindow(2 * DAY, 60 * HOUR, 4 * DAY)


@given(crops(), NAMES, WORDS, WORDS, WORDS, NUMBERS, NUMBERS, st.none() | st.floats(0, 14).map(lambda ph: round(ph, 2)), st.booleans())  # fmt: skip
def test_a_template_written_as_toml_reads_back_the_same(
    crop: CropTemplate, name: str, variety: str, sign: str, notes: str, seed: float, cut: float,
    ph: float | None, guess: bool,
) -> None:  # fmt: skip
    whole = replace(
        crop, name=name, variety=variety, sign_to_cut=sign, notes=notes, seed_grams=seed,
        expected_grams=cut, soak_ph=ph, guess=guess,
    )  # fmt: skip
    written = tomli_w.dumps(mapping_of(whole))
    assert template_from(tomllib.loads(written)) == whole
    assert template_from(mapping_of(whole), "us") == whole


@pytest.mark.parametrize("crop", starters(), ids=lambda crop: crop.name)
def test_each_starter_reads_back_the_same(crop: CropTemplate) -> None:
    assert template_from(tomllib.loads(tomli_w.dumps(mapping_of(crop)))) == crop
    assert all(template_words(crop))
    assert all(template_words(crop, "us"))


def changed(**values: Any) -> dict[str, Any]:
    return {**tomllib.loads(FIELD_TOML), **values}


def stage(**values: Any) -> dict[str, Any]:
    return changed(stages=[{"name": "only", "light": "lit", **values}])


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (changed(sead_grams=3), 'no "sead_grams". Did you mean "seed_grams"'),
        (changed(crop=""), "crop is empty"),
        (changed(crop=5), "must be text"),
        (changed(crop="x" * 81), "use up to 80"),
        (changed(name="\x1b\x07"), "name is empty"),
        (changed(seed_grams=math.nan), "real number"),
        (changed(expected_grams=math.inf), "real number"),
        (changed(seed_grams=True), "must be a number"),
        (changed(seed_grams=-1), "must be 0.01 to 20,000 g"),
        (changed(seed="a handful"), "not a number"),
        (changed(soak=4), "must be text"),
        (changed(soak="4"), "needs h for hours or d for days"),
        (changed(soak="-4h"), "negative"),
        (changed(soak="9d"), "longer than a week"),
        (changed(mucilage="yes"), "true or false"),
        (changed(mucilage=True), "gels when soaked"),
        (changed(soak_ph=15), "must be 0 to 14, not 15"),
        (changed(stages=[]), "at least one stage"),
        (changed(stages="none"), r"list of \[\[stages\]\]"),
        (changed(stages=[3]), r"list of \[\[stages\]\]"),
        (changed(cut="2d"), r"must be \[cut\]"),
        (changed(cut={}), 'Write "best"'),
        (changed(cut={"best": "60h", "until": "3d"}), 'no "until"'),
        (changed(cut={"from": "3d", "best": "2d", "by": "4d"}), "from, best, by"),
        (changed(cut=None), "Give the cut window"),
        (changed(targets="much"), "must be a table"),
        (changed(tray="big"), "must be like 10x20in"),
        (changed(tray="1x1cm"), "side of the tray"),
        (changed(spread_percent="15 kg"), "spread"),
        (changed(notes="x" * 20_001), "takes up to 20,000"),
        (changed(spread_percent="wide"), "not a number"),
        (stage(length="-2d"), "negative"),
        (stage(length="0h"), "a length above 0"),
        (stage(length=2), "must be text"),
        (stage(cover="tent"), 'cover "tent" is unknown'),
        (stage(light="dusk"), 'light "dusk" is unknown'),
        (stage(water="hose"), 'water "hose" is unknown'),
        (stage(water_per_day=1), "no way of watering"),
        (stage(water="top", water_per_day=99), "use 0, or 0.1 to 12"),
        (stage(lenght="2d"), 'Did you mean "length"'),
        (stage(name=" "), "stage name is empty"),
    ],
)
def test_what_is_wrong_is_said(given: dict[str, Any], words: str) -> None:
    with pytest.raises(Refused, match=words) as refused:
        template_from({key: value for key, value in given.items() if value is not None})
    assert "\n" not in str(refused.value)


def test_us_units_are_read_and_kept_in_si() -> None:
    given = changed(seed="4 oz", expected="1 lb", tray="10x20in")
    del given["seed_grams"], given["expected_grams"]
    crop = template_from(given, "us")
    assert crop.seed_grams == pytest.approx(113.3980925)
    assert crop.expected_grams == pytest.approx(453.59237)
    assert crop.tray == (508, 254)
    assert "seed: 4 oz dry per tray" in template_words(crop, "us")
    assert "seed: 113 g dry per tray" in template_words(crop)


def test_without_a_cut_window_the_last_stage_s_length_is_best() -> None:
    given = stage(length="5d")
    del given["cut"]
    assert template_from(given).cut == CutWindow(4 * DAY, 5 * DAY, 6 * DAY)


def test_a_stage_with_water_and_no_number_is_watered_once_a_day() -> None:
    assert template_from(stage(water="top")).stages[0].water_per_day == 1
    assert template_from(stage()).stages[0].water_per_day == 0
    assert template_from(stage(water="top", water_per_day=0.5)).stages[0].water_per_day == 0.5
