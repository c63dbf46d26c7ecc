"""Allergens of crops, and the two laws' lists."""

from __future__ import annotations

import pytest

from logbook.growing.crops.allergens import EU, US, allergens_read, by_name, law_of, law_words
from logbook.growing.crops.starters import starters
from logbook.growing.crops.template_text import template_words
from logbook.text import Refused
from tests.room import field_test


def test_the_lists_have_as_many_groups_as_the_laws() -> None:
    """14 in Annex II of Regulation (EU) No 1169/2011; 9 in 21 U.S.C. 321(qq) since 2023."""
    assert (len(EU.groups), len(US.groups)) == (14, 9)
    assert "sesame" in US.names
    assert not {"mustard", "celery", "lupin"} & US.names
    assert {"mustard", "celery", "lupin", "sesame", "soya", "wheat"} <= EU.names


@pytest.mark.parametrize(
    ("country", "law"), [("DE", EU), ("GB", EU), ("NO", EU), ("US", US), ("PR", US), ("JP", None)]
)
def test_the_law_of_a_place(country: str, law: object) -> None:
    assert law_of(country) is law


def test_starting_templates_say_theirs() -> None:
    said = {each.crop: each.allergens for each in starters()}
    assert {crop: words for crop, words in said.items() if words != "none"} == {
        "mustard": "mustard",
        "wheatgrass": "wheat",
    }


def test_what_is_typed_and_what_it_means() -> None:
    assert allergens_read("Soy, mustard and CELERY") == "soya, celery, mustard"
    assert allergens_read(" None ") == "none"
    with pytest.raises(Refused, match='Did you mean "mustard"'):
        allergens_read("mustrad")
    assert by_name("wasabi mustard") == ("mustard",)
    assert by_name("mustards, red") == ("mustard",)
    assert by_name("ryegrass", "custard") is None
    assert by_name("red cabbage") == ()
    assert law_words(("wheat", "mustard")) == (
        "wheat (by law in the EU, the UK and the US); mustard (by law in the EU and the UK)"
    )


@pytest.mark.parametrize(
    ("crop", "said", "line"),
    [
        ("mustard", None, "allergens: mustard (by law in the EU and the UK)"),
        ("mustard", "none", "By its name it is an allergen that isn't listed: mustard."),
        ("clover", None, "Its allergens aren't set: write them, or none."),
        ("radish", None, "allergens: none"),
        ("clover", "none", "allergens: none"),
    ],
)
def test_what_is_not_said_is_taken_from_the_name_or_asked_for(
    crop: str, said: str | None, line: str
) -> None:
    assert line in template_words(field_test(crop=crop, name=crop, allergens=said))


def test_every_starting_crop_is_known_by_its_name() -> None:
    assert all(by_name(each.crop) is not None for each in starters())
