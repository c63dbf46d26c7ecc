"""The templates of a new book; what was published of yields is in tests/outside."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.growing.crops.starters import starters
from logbook.growing.crops.templates import CropTemplate, checked
from logbook.growing.measures import GRAMS
from logbook.growing.room.water import WaterReading, water_marks
from logbook.growing.trays.forecast import changes_ahead
from tests.room import DAY, HOUR, moment

STARTERS = {each.name: each for each in starters()}
OUNCE = GRAMS["oz"]


def _days(crop: CropTemplate) -> tuple[float, float, float]:
    covered = crop.planned_seconds()
    cut = crop.cut
    ends = (cut.from_seconds, cut.best_seconds, cut.by_seconds)
    first, best, last = ((covered + each) / DAY for each in ends)
    return first, best, last


@pytest.mark.parametrize("name", STARTERS)
def test_each_is_whole_and_marked_as_a_guess(name: str) -> None:
    crop = STARTERS[name]
    assert checked(crop) == crop
    assert crop.guess
    assert "your own trays will replace it" in crop.notes
    assert crop.sign_to_cut
    assert not (crop.mucilage and crop.soak_seconds)
    ahead = changes_ahead(crop, 0, moment("2026-04-01 08:00"))
    assert ahead[-1].chore == "light_on"
    assert all(change.words for change in ahead)


def test_seed_that_turns_to_jelly_is_never_soaked() -> None:
    # common practice, no source
    assert {name for name, crop in STARTERS.items() if crop.mucilage} == {
        "basil",
        "rocket",
        "cress",
        "mustard",
    }
    assert "gels when wet" in STARTERS["mustard"].notes


def test_mustard_is_said_to_be_an_allergen() -> None:
    assert STARTERS["mustard"].allergens == "mustard"


def test_each_has_wishes_of_light_air_and_water() -> None:
    # common practice, no source
    for crop in STARTERS.values():
        wishes = crop.targets
        assert None not in (wishes.light, wishes.celsius, wishes.humidity, wishes.ph, wishes.ec)


def test_a_shelf_of_a_new_book_is_judged() -> None:
    wishes = STARTERS["basil"].targets
    assert wishes.celsius is not None
    assert wishes.celsius.side(17) < 0  # a room for brassicas is too cold for basil
    assert water_marks(WaterReading(ph=8.2), wishes)[0].side == "high"


def test_only_light_crops_lie_below_one_farm_s_line_between_loss_and_profit() -> None:
    # 113 g a tray, SARE FNE14-800 (seen)
    below = {name for name, crop in STARTERS.items() if (crop.expected_grams or 0) < 113}
    assert below == {"basil", "red amaranth", "red shiso", "dill"}
    assert (STARTERS["basil"].expected_grams, STARTERS["red amaranth"].expected_grams) == (95, 90)


def test_the_soaked_starters_are_the_large_seeded_ones() -> None:
    # soaking lowered weight where it mattered in ten species (Li, Lalk & Bi 2021, Horticulturae
    # 7(2):14, seen): small seed goes dry, and a grower's trial may well drop the other soaks
    soaked = {
        name: crop.soak_seconds / HOUR for name, crop in STARTERS.items() if crop.soak_seconds
    }
    assert soaked == {
        "sunflower": 10,
        "pea shoots": 16,
        "coriander": 4,
        "beet": 6,
        "chard": 6,
        "wheatgrass": 10,
    }
    assert "may be left out" in STARTERS["coriander"].notes


def test_sunflower_is_ready_before_its_true_leaves() -> None:
    assert "before the first true leaves show" in STARTERS["sunflower"].sign_to_cut


def test_the_version_of_a_starter_is_the_first() -> None:
    assert {crop.version for crop in STARTERS.values()} == {1}
    assert replace(STARTERS["kale"], version=7) == STARTERS["kale"]


def test_a_starting_template_is_the_middle_of_its_range() -> None:
    radish = STARTERS["radish"]
    assert (radish.seed_grams, radish.soak_seconds, radish.expected_grams) == (37.5, 0, 275)
    # 200 to 350 g is 1.5 standard deviations to both sides of 275 g: 50 g, 18 %
    assert radish.spread_percent == 18
    assert [(each.name, each.cover, each.light, each.seconds) for each in radish.stages] == [
        ("weighted", "weight", "dark", 2 * DAY),
        ("blackout", "lid", "dark", DAY),
        ("light", "none", "lit", None),
    ]
    assert [each.water_per_day for each in radish.stages] == [1, 0, 1]
    assert [each.looks_per_day for each in radish.stages] == [1, 1, 1]
    assert _days(radish) == (6, 8, 10)
    basil = STARTERS["basil"]
    assert [(each.cover, each.seconds) for each in basil.stages] == [
        ("lid", 5 * DAY),
        ("none", None),
    ]
    assert _days(basil) == (14, 19.5, 25)
    assert basil.soak_seconds == 0
    assert _days(STARTERS["broccoli"]) == (7, 9.5, 12)
    assert STARTERS["wheatgrass"].stages[-1].water == "top"
