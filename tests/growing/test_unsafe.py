"""Species that must not be eaten as seedlings: refused by their whole names, never by a part."""

from __future__ import annotations

import pytest

from logbook.growing.crops.starters import starters
from logbook.growing.crops.template_text import template_from
from logbook.growing.crops.unsafe import UNSAFE, refuse_unsafe
from logbook.text import Refused

# The nightshades: "tomato, pepper, eggplant and potato … contain high levels of alkaloids"
# (Idaho State Journal, extension column of 12 May 2023, seen). Kidney beans: 20,000 to 70,000
# haemagglutinating units raw (FDA Bad Bug Book, seen in a copy). The others from memory.
NAMES = ["Tomato", "potatoes", "aubergine", "EGGPLANT", "bell pepper", "pepper", "tobacco",
         "rhubarb", "Kidney  bean", "red kidney beans", "scarlet-runner bean", "lima beans",
         "butter bean", "butter beans", "sorghum", "chilli peppers", "chillies", "plum tomatoes",
         "physalis", "sweet-peas", "tomato, Sungold", "tomato microgreens", "pepper shoots"]  # fmt: skip
SAFE = ["pepper cress", "soya", "soy bean", "mung", "mung bean", "sweet potato", "adzuki bean",
        "broad bean", "bean", "beans", "rhubarb chard", "pea shoots", "tomatillo-scented basil", ""]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_an_unsafe_species_is_refused_with_reason_and_source(name: str) -> None:
    with pytest.raises(
        Refused, match=r"can't be grown as a microgreen: .+\. Source: .+\.$"
    ) as told:
        refuse_unsafe(name)
    assert told.value.about == "crop"


@pytest.mark.parametrize("name", SAFE)
def test_a_part_of_a_word_refuses_nothing(name: str) -> None:
    refuse_unsafe(name)


def test_each_row_has_its_reason_and_source() -> None:
    assert all(row.why and row.source and row.names for row in UNSAFE)


def test_a_variety_is_not_a_species() -> None:
    stages = [{"name": "light", "light": "lit"}]
    crop = {"crop": "chard", "variety": "rhubarb", "stages": stages, "cut": {"best": "9d"}}
    assert template_from(crop).label() == "chard, rhubarb"
    with pytest.raises(Refused, match="oxalic acid"):
        template_from({**crop, "crop": "rhubarb", "variety": ""})
    with pytest.raises(Refused, match="nightshades"):
        template_from({**crop, "name": "tomato"})


def test_no_starting_template_is_of_one() -> None:
    for crop in starters():
        refuse_unsafe(crop.crop, crop.name)
