"""What a change between stages is called when it is looked back at."""

from __future__ import annotations

from dataclasses import replace

from logbook.actions.trays.entry_words import words_into
from logbook.growing.crops.starters import starters

RADISH = next(each for each in starters() if each.name == "radish")
SHORT = replace(RADISH, stages=RADISH.stages[:2])


def test_all_parts_of_a_change_are_named() -> None:
    assert words_into([RADISH, RADISH], 1, "lid_on") == "weight off, lid on"


def test_where_templates_differ_in_it_the_chore_is_named() -> None:
    other = replace(RADISH, stages=(RADISH.stages[1], *RADISH.stages[1:]))
    assert words_into([RADISH, other], 1, "lid_on") == "lid on"


def test_a_change_into_a_stage_that_the_template_lacks_is_named_by_its_chore() -> None:
    assert words_into([SHORT], 2, "light_on") == "under lights"
    assert words_into([RADISH, SHORT], 2, "light_on") == "under lights"
