"""Where the rules of crop templates begin and end: fields, lines of stages, seed, lengths of lives."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.growing.bands import Band
from logbook.growing.crops.germination import germination_words
from logbook.growing.crops.seeding import pure_live_share, seed_need, tray_area_cm2
from logbook.growing.crops.stage_line import stage_words
from logbook.growing.crops.stage_reading import parse_stage
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_changes import what_changed
from logbook.growing.crops.template_fields import leaves, mapping_of, record_from
from logbook.growing.crops.template_text import template_words
from logbook.growing.crops.template_values import FLAG, band_from
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage, checked
from logbook.growing.crops.yields import Expected
from logbook.growing.quantities import TEMPERATURE
from logbook.text import Refused
from tests.room import DAY, HOUR, crop_of, field_test, targets_from

OPEN = Stage("light", None, "none", "lit")

# Fields


def test_a_form_of_a_new_template_begins_with_the_defaults_and_says_that_it_is_a_guess() -> None:
    begins = {
        leaf.name: leaf.told.begins
        for leaf in leaves(CropTemplate)
        if leaf.told.begins not in (None, "")
    }
    assert begins == {
        "tray": (508.0, 254.0), "soak": 0, "mucilage": False, "spread": 20.0, "guess": True,
    }  # fmt: skip


def test_what_has_nothing_as_its_default_may_be_empty() -> None:
    empty = {each.attribute for each in CropTemplate.fields if each.may_be_empty}
    assert {"variety", "seed_grams", "soak_ph", "medium", "notes", "targets"} <= empty
    assert not empty & {"name", "crop", "stages", "cut", "tray", "mucilage", "spread_percent"}


def test_what_is_empty_is_left_out_of_a_file_and_a_key_without_a_name_is_none() -> None:
    held = mapping_of(crop_of(OPEN))
    assert not {"targets", "variety", "notes", "seed_grams"} & set(held)
    assert held["cut"] == {"from": "2d", "best": "3d", "by": "4d"}
    assert mapping_of(crop_of(OPEN, targets=Targets(lit_hours=16)))["targets"]
    with pytest.raises(Refused, match='has no ""'):
        record_from(Targets, {"": "8-12"}, "The table of targets")
    with pytest.raises(Refused, match=r'has no "lite".* Did you mean "light"'):
        targets_from({"lite": "8-12"})


def test_a_life_may_last_a_year_and_no_second_more() -> None:
    year = 365 * DAY
    for by, fits in ((year - DAY, True), (year - DAY + 1, False)):
        crop = crop_of(Stage("dark", DAY), OPEN, cut=CutWindow(0, DAY, by))
        if fits:
            assert checked(crop) is crop
        else:
            with pytest.raises(Refused, match="more than a year"):
                checked(crop)
    assert checked(crop_of(*[replace(OPEN, seconds=DAY)] * 12)).planned_seconds() == 11 * DAY
    assert checked(crop_of(OPEN, soak_seconds=7 * DAY)).soak_seconds == 7 * DAY
    assert checked(crop_of(OPEN, cut=CutWindow(0, 0, 0))).cut.by_seconds == 0
    assert checked(crop_of(Stage("a", 1), OPEN)).stages[0].seconds == 1


def test_a_cut_window_is_a_day_on_either_side_and_never_before_the_stage() -> None:
    crop = record_from(
        CropTemplate,
        {"crop": "x", "stages": [{"name": "a", "length": "12h", "light": "lit"}]}, "A template",
    )  # fmt: skip
    assert crop.cut == CutWindow(0, 12 * HOUR, 12 * HOUR + DAY)
    late = record_from(
        CropTemplate,
        {"crop": "x", "variety": "red", "stages": [{"name": "a", "length": "3d"}]}, "A template",
    )  # fmt: skip
    assert late.cut == CutWindow(2 * DAY, 3 * DAY, 4 * DAY)
    assert (crop.name, late.name, late.label(), crop.label()) == ("x", "x, red", "x, red", "x")
    assert (crop.seed_for(None), replace(crop, seed_grams=30.0).seed_for(0.5)) == (None, 0.5)


# In words


def test_a_template_in_words() -> None:
    crop = field_test(
        name="field", variety="red", soak_ph=6.25, guess=True, medium="coir", notes="By hand.",
        targets=Targets(celsius=Band(18, 24), ph=Band(5.5, 6.5)), version=3,
    )  # fmt: skip
    words = template_words(crop)
    assert words[:3] == [
        "field (version 3)", "starting guess: your own trays will replace it", "crop: field test, red",
    ]  # fmt: skip
    for line in (
        "seed: 100 g dry per tray", "soak: 4h, pH 6.25", "medium: coir",
        "stage 2: blackout: 1d, lid on, dark",
        "cut: from 2d, best 60h, by 4d after the last stage began",
        "expected: 500 g per tray ± 15 %", "wants temperature: 18 to 24 °C",
        "wants water: pH 5.5 to 6.5", "notes: By hand.",
    ):  # fmt: skip
        assert line in words
    own = Expected(480, 30, 440, 520, 6, 2)
    assert "starting guess" not in "".join(template_words(crop, expected=own))
    assert template_words(crop, expected=replace(own, trays=0))[1].startswith("starting guess")
    plain = template_words(field_test(soak_seconds=0, notes=""))
    assert plain[0] == "field test"
    assert not any(line.startswith(("crop:", "soak:", "notes:", "starting")) for line in plain)
    jelly = template_words(field_test(soak_seconds=0, mucilage=True))
    assert "soak: never (mucilage)" in jelly


def test_a_stage_in_words() -> None:
    weight = Stage("w", 4 * DAY, "weight", "dark", "mist", 2.0, 1.0)
    assert stage_words(weight) == "4d, weight on, dark, mist 2× a day, look 1×"
    assert stage_words(OPEN) == "until the cut, open, lit"
    for line, said in (
        ("x: dark mist top", "two ways of watering (mist, top or bottom)"),
        ("x: dark lit", "two light states (dark or lit)"),
        ("x: dark look 1 look 2", "two looks; leave one out"),
    ):
        with pytest.raises(Refused) as refused:
            parse_stage(line)
        assert said in str(refused.value)


def test_what_differs_between_templates_says_none_for_nothing() -> None:
    before = field_test(seed_grams=None, medium="")
    after = replace(before, seed_grams=30.0, medium="coir", targets=Targets(lit_hours=16))
    assert what_changed(before, after) == [
        "seed per tray: 30 g, was none", "medium: coir, was none", "lit hours: 16 h, was none",
    ]  # fmt: skip
    assert what_changed(after, before)[1] == "medium: none, was coir"


@pytest.mark.parametrize(
    ("text", "band"),
    [
        ("18-24 C", Band(18, 24)), ("18 C - 75.2 F", Band(18, 24)), ("from 18", Band(18, None)),
        (">= 18", Band(18, None)), ("up to 24", Band(None, 24)), ("≤24", Band(None, 24)),
        ("20", Band(20, 20)), ("18..24", Band(18, 24)), ("64.4 to 75.2 F", Band(18, 24)),
    ],
)  # fmt: skip
def test_a_band_s_unit_holds_for_both_ends(text: str, band: Band) -> None:
    found = band_from(text, TEMPERATURE)
    assert [found.low, found.high] == pytest.approx([band.low, band.high])


# Seed


def test_seed_is_made_up_for_what_will_not_come_up() -> None:
    assert pure_live_share(98, 50) == pytest.approx(0.49)
    need = seed_need(0.5, 100, 20, purity_percent=80, germination_percent=50)
    assert (need.seeds, need.seeds_sown) == (50, 100)
    assert [need.grams, need.pure_live_share] == pytest.approx([2.5, 0.4])
    assert need.words == "2.5 g per tray: 50 seeds that come up, 100 sown"
    assert seed_need(1, 1000, 99.994).words.startswith("99.99 g per tray: 1,000 seeds")
    assert seed_need(1, 1000, 100.06).words.startswith("100.1 g per tray")
    assert tray_area_cm2(508, 254) == pytest.approx(1290.32)
    assert tray_area_cm2(0.5, 0.5) == pytest.approx(0.0025)
    for length, width in ((0, 1), (1, 0), (-1, 1)):
        with pytest.raises(Refused, match="more than 0"):
            tray_area_cm2(length, width)
    with pytest.raises(Refused, match="area must be more than 0"):
        seed_need(1, 0, 10)
    assert seed_need(1, 0.5, 10).seeds == 0.5


def test_a_lot_at_the_least_is_not_spoken_of() -> None:
    assert germination_words("radish", 75) is None
    assert (germination_words("radish", 74.9) or "").startswith(
        "74.9 % germination is below the US standard for this kind, 75 %"
    )
    assert germination_words("basil", 10) is None


def test_a_text_with_a_unit_is_no_number_and_a_flag_is_typed_as_y_or_n() -> None:
    given = {"crop": "x", "stages": [{"name": "a", "length": "1d"}], "seed": 100}
    with pytest.raises(Refused, match="seed per tray must be text in quotes"):
        record_from(CropTemplate, given, "A template")
    assert record_from(CropTemplate, {**given, "seed": "100 g"}, "A template").seed_grams == 100
    assert [FLAG.write(value, "metric") for value in (True, False)] == ["y", "n"]
