"""The facts of a trial's trays: which are compared when, what is no record, what is said beside."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import timedelta
from typing import Any

import pytest

from logbook.growing.numbers import life
from logbook.growing.trays.life import Deed, Status, TrayState
from logbook.growing.trials.facts import RED_STEMS, facts_of, trial_confounders
from logbook.growing.trials.kept import Happenings
from logbook.growing.trials.record import Surroundings, TrayRecord, stage_hours
from tests.room import DAY, HOURS, LONDON, changed, crop_of, field_test, moment, sown

SOWN = moment("2026-04-01 08:00")
CUT = moment("2026-04-09 08:00")
STATE = TrayState(
    status=Status.CUT, soaked_at=SOWN - timedelta(hours=4), sown_at=SOWN, ended_at=CUT
)


def record(number: int, **more: Any) -> TrayRecord:
    """Give an even tray of arm a and an odd one of arm b, cut after eight days."""
    given: dict[str, Any] = {
        "template": field_test(),
        "name": number,
        "state": STATE,
        "joined_at": SOWN,
        "waterings": 3,
        **more,
    }
    said = {each.name: given.pop(each.name) for each in fields(Happenings) if each.name in given}
    return TrayRecord(number=number, arm="ab"[number % 2], said=Happenings(**said), **given)


def pair(first: dict[str, Any], second: dict[str, Any]) -> list[TrayRecord]:
    return [record(102, **first), record(101, **second)]


def value(name: str, **more: Any) -> object:
    """Give a fact of a tray."""
    (fact,) = [each for each in facts_of([record(101, **more)], "luck") if each.name == name]
    return fact.values[101]


def differing(records: list[TrayRecord], factor: str = "luck") -> set[str]:
    return {each.fact for each in trial_confounders(records, factor, LONDON).differences}


@pytest.mark.parametrize("factor", ["density", "the seed density", "Seed sown"])
def test_what_is_compared_is_nothing_else_that_differed(factor: str) -> None:
    records = pair({"seed_grams": 20.0}, {"seed_grams": 25.0})
    assert "seed sown" in differing(records)
    assert "seed sown" not in differing(records, factor)


def sown_at(hours: float) -> TrayState:
    return replace(STATE, sown_at=SOWN + timedelta(hours=hours))


def test_a_soak_that_the_template_wants_and_nobody_wrote_down_is_no_record() -> None:
    dry = field_test(soak_seconds=0)
    assert value("soak") == 4
    assert value("soak", state=replace(STATE, soaked_at=None)) is None
    assert value("soak", state=replace(STATE, soaked_at=None), template=dry) == 0
    assert value("soak", state=replace(STATE, sown_at=None)) is None
    assert value("soak pH", state=replace(STATE, soaked_at=None), template=dry) == "no soak"
    assert value("soak pH", template=replace(dry, soak_ph=6.0)) == 6.0


def test_a_tray_that_wants_water_and_has_none_written_down_is_no_record() -> None:
    thirsty, never = field_test(), field_test()
    never = replace(
        never, stages=tuple(replace(each, water_per_day=0.0) for each in never.stages)
    )  # fmt: skip
    assert value("waterings", template=thirsty, waterings=0) is None
    assert value("water given", template=thirsty, waterings=0, water_ml=0.0) is None
    assert value("waterings", template=never, waterings=0) == 0
    assert value("waterings", template=thirsty, waterings=2) == 2
    assert value("water given", template=thirsty, waterings=2, water_ml=500.0) == 500


def test_the_size_of_a_tray_is_in_cm() -> None:
    size = field_test(tray=(500.0, 255.0))
    assert value("tray", template=size) == "50 cm × 25.5 cm"


def test_time_of_sowing_counts_from_the_first_of_its_week() -> None:
    week = timedelta(days=7)
    records = [
        record(101, state=sown_at(2)),
        record(102, state=sown_at(0)),
        record(103, run=2, state=replace(STATE, sown_at=SOWN + week)),
        record(104, run=2, state=replace(STATE, sown_at=SOWN + week + timedelta(hours=1))),
        record(105, state=replace(STATE, sown_at=None)),
    ]
    (fact,) = [each for each in facts_of(records, "luck") if each.name == "time of sowing"]
    assert fact.values == {101: 2, 102: 0, 103: 0, 104: 1, 105: None}


@pytest.mark.parametrize(
    ("hours", "differs"), [(0.5, False), (0.51, True), (-0.51, True)]
)  # fmt: skip
def test_trays_sown_half_an_hour_apart_were_sown_together(hours: float, differs: bool) -> None:
    records = pair({"state": sown_at(1)}, {"state": sown_at(1 + hours)})
    assert ("time of sowing" in differing(records)) is differs


@pytest.mark.parametrize(("hours", "differs"), [(98.0, False), (98.1, True)])
def test_two_hours_more_in_a_stage_are_alike(hours: float, differs: bool) -> None:
    spent = {"stage_hours": {"weighted": 96.0}}, {"stage_hours": {"weighted": hours}}
    assert ('time in "weighted"' in differing(pair(*spent))) is differs
    assert 'time in "weighted"' not in differing(pair(*spent), "stages")
    # and a stage that one of them is still in is not compared
    assert not differing(pair(spent[0], {"stage_hours": {}}))


def test_light_is_compared_once_a_tray_had_some_and_the_cut_once_all_are_cut() -> None:
    growing = replace(STATE, status=Status.GROWING, ended_at=None)
    lit = Surroundings(light_days=1.0, lit_hours=16.0, ppfd=180.0)

    def names(**more: Any) -> set[str]:
        return {each.name for each in facts_of([record(101), record(102, **more)], "luck")}

    assert "mean PPFD" not in names()
    assert {"mean PPFD", "lit hours", "lamps"} <= names(around=lit)
    assert {"cut by", "days from sowing to the cut"} <= names()
    assert not {"cut by", "days from sowing to the cut"} & names(state=growing)
    said = trial_confounders([record(101, state=growing)], "luck", LONDON).words
    assert said[-1].startswith("Trays are still growing")
    assert "still growing" not in "".join(trial_confounders([record(101)], "luck", LONDON).words)


@pytest.mark.parametrize(
    ("factor", "fact", "one", "other"),
    [
        ("density", "seed sown", {"seed_grams": 80.0}, {"seed_grams": 120.0}),
        ("soak", "soak", {}, {"state": replace(STATE, soaked_at=SOWN)}),
        ("water", "waterings", {}, {"waterings": 9}),
        ("water", "water given", {"water_ml": 100.0}, {"water_ml": 900.0}),
    ],
)
def test_what_was_tried_is_not_listed_among_what_else_differed(
    factor: str, fact: str, one: dict[str, Any], other: dict[str, Any]
) -> None:
    assert fact in differing(pair(one, other))
    assert fact not in differing(pair(one, other), factor)


def test_a_tray_that_does_not_count_is_not_compared() -> None:
    records = [record(101, lot="L1"), record(102, lot="L1"), record(103, lot="L2", left_out="torn")]
    assert differing(records) == set()


@pytest.mark.parametrize(
    ("stems", "red"),
    [("deep red", True), ("DARK RED", True), ("very red", True), ("red", False),
     ("deep green", False), ("reddish, deep", False)],
)  # fmt: skip
def test_deep_red_stems_of_one_arm_are_listed(stems: str, red: bool) -> None:
    records = [
        record(number, stems=(stems,) if number == 101 else ()) for number in range(101, 105)
    ]
    found = trial_confounders(records, "luck", LONDON)
    assert (RED_STEMS in {each.fact for each in found.differences}) is red
    assert any("deep red stems on tray 101 (b)" in words for words in found.words) is red
    if red:
        assert found.differences[0].by_arm == {"b": "1 of 2 trays", "a": "none seen"}
        assert RED_STEMS not in differing(records, "water")


def test_red_stems_of_all_trays_are_said_and_are_no_difference() -> None:
    records = [record(number, stems=("deep red",)) for number in (101, 102)]
    found = trial_confounders(records, "luck", LONDON)
    assert found.differences == ()
    assert any("on trays 101 102" in words for words in found.words)


@pytest.mark.parametrize(("minutes", "said"), [(0.9, False), (1.1, True)])
def test_a_minute_of_light_that_was_not_measured_is_not_spoken_of(
    minutes: float, said: bool
) -> None:
    around = Surroundings(1.0, 16.0, 16.0, unmeasured_hours=minutes / 60, ppfd=180.0)
    words = trial_confounders([record(101, around=around)], "luck", LONDON).words
    assert any("Light was not measured" in each for each in words) is said


def test_light_is_said_apart_where_too_little_was_measured() -> None:
    some = Surroundings(1.0, 16.0, 16.0, unmeasured_hours=2.0, ppfd=180.0)
    none = replace(some, unmeasured_hours=15.0, ppfd=None)
    words = trial_confounders(
        [record(101, around=some), record(102, around=none), record(103, around=none)],
        "luck",
        LONDON,
    ).words
    known, unknown = (each for each in words if each.startswith("Light was not measured"))
    assert "2 h of 16 h under lit lamps (tray 101): mean PPFD and DLI are those" in known
    assert "15 h of 16 h under lit lamps (trays 102 103): too little" in unknown


def test_trays_of_one_sowing_cut_on_other_days_are_said_by_day() -> None:
    later = replace(STATE, ended_at=CUT + timedelta(days=1))
    said = trial_confounders([record(101), record(102, state=later)], "luck", LONDON).words
    assert any("cut on 2 different days (Thu 9 Apr b and Fri 10 Apr a)" in each for each in said)
    weeks = trial_confounders([record(101), record(102, run=2, state=later)], "luck", LONDON).words
    assert not any("different days" in each for each in weeks)


# hours in each stage


def test_hours_are_of_stages_that_are_over() -> None:
    deeds = [
        Deed(1, "soak", SOWN - timedelta(hours=4)),
        replace(sown(SOWN), entry=2),
        replace(changed(SOWN + timedelta(hours=90), 1), entry=3),
        Deed(4, "water", SOWN + timedelta(hours=100)),
        replace(changed(SOWN + timedelta(hours=120), 2), entry=5),
    ]
    now = SOWN + timedelta(hours=150)
    assert stage_hours(field_test(), deeds, HOURS, now) == {"weighted": 90, "blackout": 30}
    cut = [*deeds, Deed(6, "cut", SOWN + timedelta(hours=170))]
    assert stage_hours(field_test(), cut, HOURS, now + timedelta(days=9)) == {
        "weighted": 90,
        "blackout": 30,
        "light": 50,
    }


def test_stages_that_pass_by_themselves_have_their_own_hours() -> None:
    light = field_test().stages[2]
    crop = crop_of(
        replace(light, name="one", seconds=DAY),
        replace(light, name="two", seconds=2 * DAY),
        replace(light, name="one", seconds=DAY),
        replace(light, name="last"),
    )
    deeds = [replace(sown(SOWN), entry=1)]
    assert stage_hours(crop, deeds, HOURS, SOWN + timedelta(hours=80)) == {"one": 24, "two": 48}
    assert stage_hours(crop, deeds, HOURS, SOWN + timedelta(hours=97)) == {"one": 48, "two": 48}


def test_trays_of_one_number_are_two_and_so_are_those_of_a_batch_that_wait() -> None:
    first = record(101, name=life(101, 7), lot="L1")
    later = record(101, lot="L2", run=2)
    other = [record(102, lot="L2"), record(104, lot="L2")]
    (found,) = trial_confounders([first, later, *other], "luck", LONDON).differences
    assert found.by_arm == {"b": "1 from L1, 1 from L2", "a": "L2"}
    unknown = [record(102), record(-120_002, name=-120_002), record(-120_001, name=-120_001)]
    assert trial_confounders(unknown, "luck", LONDON).missing["seed lot"] == ("102", "b12", "b12")
