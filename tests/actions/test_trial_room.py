"""Light, air and electricity of a trial's trays, as the room's entries tell them."""

from __future__ import annotations

import json
from datetime import date, timedelta
from decimal import Decimal

import pytest

from logbook.actions.book import Book
from logbook.actions.room.air_feed import Feed
from logbook.actions.room.lamps import hang_lamps, set_tariff
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.room.outages import write_outage
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard, move
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.sowing import SownTrial
from logbook.growing.numbers import numbers_words
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import Tariff
from logbook.growing.trials.view import TrialView
from tests.actions.days import stand_at
from tests.room import moment
from tests.trial_room import cut, grow, later, make_trial, sow_all

WARM, COOL = "Rack 1/Shelf 1", "Rack 2/Shelf 1"
GRAMS = {"warm": (400, 410), "cool": (405, 415)}


def _light(book: Book, shelf: str, ppfd: float, kind: str, watts: float) -> None:
    write_survey(book, SurveyDraft(shelf, Grid(1, 1), (Spot(1, 1, ppfd),)))
    hang_lamps(book, shelf, LampSet(2, watts, kind))


def _lamp_trial(book: Book) -> TrialView:
    """Give a trial whose arms are two shelves, cut after 2.5 days in the light."""
    arms = (f"warm={WARM}", f"cool={COOL}")
    make_trial(book, factor="lamps", arms=arms, replicates=2)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, GRAMS)
    return judge_trial(book, "thick")


def _differences(view: TrialView) -> dict[str, dict[str, str]]:
    return {one.fact: dict(one.by_arm) for one in view.confounders.differences}


def test_light_that_is_not_alike_is_said(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    _light(book, WARM, 150, "warm bar", 20)
    _light(book, COOL, 200, "cool bar", 20)
    found = _differences(_lamp_trial(book))
    assert found["mean PPFD"] == {"warm": "150 µmol/m²/s", "cool": "200 µmol/m²/s"}
    assert "DLI" in found
    # which lamps it was is the one thing, so it is not among what else differed
    assert "lamps" not in found
    assert "lit hours" not in found


def test_daily_light_is_mean_light_times_lit_seconds(book: Book) -> None:
    """DLI = PPFD × 3600 × hours / 10⁶ (Purdue Extension HO-238-W): 200 µmol for 16 h is 11.52."""
    stand_at(book, "2026-03-30 08:00")
    _light(book, COOL, 200, "cool bar", 20)
    around = {record.arm: record.around for record in _lamp_trial(book).records}
    cool = around["cool"]
    assert cool.lit_hours is not None
    assert cool.dli == pytest.approx(200 * 3600 * cool.lit_hours / 1e6)
    assert (around["warm"].ppfd, around["warm"].dli) == (None, None)


def _lit(book: Book) -> tuple[SownTrial, list[int]]:
    """Bring a trial of two arms to the light, with WARM measured and COOL not; give its trays."""
    stand_at(book, "2026-03-30 08:00")
    write_survey(book, SurveyDraft(WARM, Grid(1, 1), (Spot(1, 1, 125.24),)))
    make_trial(book, factor="brushing", arms=("none", "daily"), replicates=2)
    sown = sow_all(book, "2026-04-01 08:00")
    numbers = [number for number, _ in sown.spots]
    later(book, 5)
    did(book, "light_on", numbers)
    return sown, numbers


def _stood(book: Book, away: float, of: float) -> TrialView:
    """Give a trial whose first tray stood `away` of its `of` lit hours on the unmeasured COOL."""
    sown, numbers = _lit(book)
    move(book, numbers, WARM)
    move(book, numbers[:1], COOL)
    later(book, away / 24)
    move(book, numbers[:1], WARM)
    later(book, (of - away) / 24)
    cut(book, sown, {"none": (400, 410), "daily": (405, 415)})
    return judge_trial(book, "thick")


def test_light_that_was_not_measured_is_no_darkness(book: Book) -> None:
    view = _stood(book, 0.25, 4.5)
    around = {record.number: record.around for record in view.records}
    first = around[view.records[0].number]
    # 15 min of 4.5 lit hours without a survey leave the mean as it was where it was measured
    assert first.unmeasured_hours == pytest.approx(0.25)
    assert first.ppfd == pytest.approx(125.24)
    # DLI = PPFD × 3600 × lit hours a day / 10⁶ (Purdue Extension HO-238-W), lit all the time here
    assert first.dli == pytest.approx(125.24 * 86_400 / 1e6)
    assert {"mean PPFD", "DLI"} <= set(view.confounders.alike)
    number = view.records[0].number
    assert (
        f"Light was not measured for 15 min of 4 h 30 min under lit lamps (tray {number}): mean PPFD "
        "and DLI are those of the time that was measured."
    ) in view.confounders.words


def test_a_power_cut_of_one_arm_is_among_what_else_differed(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    assert "power cuts" not in _differences(_lamp_trial(book))
    off = moment("2026-04-03 02:00"), moment("2026-04-03 05:00")
    write_outage(book, *off, WARM)  # at night: no light was lost
    found = _differences(judge_trial(book, "thick"))
    assert found["power cuts"] == {"warm": "3 h", "cool": "0 h"}
    write_outage(book, *off)  # then in the whole room
    assert "power cuts" not in _differences(judge_trial(book, "thick"))


def test_light_that_was_hardly_measured_is_missing(book: Book) -> None:
    view = _stood(book, 3, 4.5)
    number = view.records[0].number
    assert view.confounders.missing["mean PPFD"] == (str(number),)
    assert (
        f"Light was not measured for 3 h of 4 h 30 min under lit lamps (tray {number}): too little "
        "was measured to say mean PPFD and DLI."
    ) in view.confounders.words


def test_lamps_one_after_another_are_told_from_the_last_ones(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    hang_lamps(book, WARM, LampSet(2, 20, "warm bar"))
    hang_lamps(book, COOL, LampSet(2, 20, "cool bar"))
    hang_lamps(book, COOL, LampSet(0))
    view = _stood(book, 0.25, 4.5)
    warm = LampSet(2, 20, "warm bar").words()
    assert view.records[0].around.lamps == f"{warm} (before: no lamps)"
    assert view.records[1].around.lamps == warm
    (said,) = [words for words in view.confounders.words if words.startswith("lamps")]
    assert said.startswith("lamps differ: could explain part of it (")
    assert f"1 with {warm}, 1 with {warm} (before: no lamps)" in said


def test_lamps_that_differ_by_the_way_are_listed_in_another_trial(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    _light(book, WARM, 150, "warm bar", 20)
    _light(book, COOL, 150, "cool bar", 20)
    arms = ("none", "twice a day")
    make_trial(book, factor="brushing", arms=arms, replicates=1, shelves=(WARM, COOL))
    sow_all(book, "2026-04-01 08:00")
    # every arm stands on every shelf, so the shelves' lamps are no difference between arms
    view = judge_trial(book, "thick")
    assert "lamps" not in _differences(view)
    assert "shelf" in view.confounders.alike


def test_air_is_compared_where_readings_cover_it(book: Book) -> None:
    _lamp_trial(book)
    stand_at(book, "2026-04-09 08:00")
    feed = Feed(book)
    for hour in range(24 * 8):
        at = (moment("2026-04-01 00:30") + timedelta(hours=hour)).isoformat()
        for place, celsius in ((WARM, 20), (COOL, 23)):
            line = {"place": place, "celsius": celsius, "humidity": 60, "at": at}
            feed.take(json.dumps(line).encode())
    feed.write()
    assert feed.bad == 0
    found = _differences(judge_trial(book, "thick"))
    assert found["temperature"] == {"warm": "20 °C", "cool": "23 °C"}
    assert "humidity" not in found


def test_air_that_is_not_measured_is_named_as_missing(book: Book) -> None:
    assert "Temperature" not in _lamp_trial(book).confounders.alike
    assert "temperature" in judge_trial(book, "thick").confounders.missing


def test_the_cost_of_light_stands_beside_the_grams(book: Book) -> None:
    """Two trays share a shelf's lamps: half of the energy of each lit hour is a tray's."""
    stand_at(book, "2026-03-30 08:00")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.50")))
    _light(book, WARM, 150, "warm bar", 20)
    _light(book, COOL, 150, "cool bar", 40)
    view = _lamp_trial(book)
    around = {record.arm: record.around for record in view.records}
    lit = around["warm"].lit_hours
    assert lit is not None
    hours = lit * around["warm"].light_days
    assert float(around["warm"].lamp_cost or 0) == pytest.approx(2 * 20 * hours / 1000 * 0.50 / 2)
    assert float(around["cool"].lamp_cost or 0) == pytest.approx(2 * 40 * hours / 1000 * 0.50 / 2)
    # the weights are not shown to differ, so twice the watts is twice the cost of 100 g
    assert view.costs.counted == ("light",)
    assert view.costs.per_100_g["cool"] == pytest.approx(2 * view.costs.per_100_g["warm"])
    assert view.costs.missing == ("the price of seed", "hours of work")


def test_without_a_price_light_costs_nothing_that_is_made_up(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    _light(book, WARM, 150, "warm bar", 20)
    view = _lamp_trial(book)
    assert view.costs.per_100_g == {}
    assert "light" in view.costs.words


def test_a_tray_without_lamps_is_named_and_the_others_are_priced(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.50")))
    hang_lamps(book, WARM, LampSet(2, 20, "warm bar"))
    view = _stood(book, 3, 4.5)
    first = view.records[0]
    assert view.costs.counted == ("light",)
    assert (
        f"Light is not known for tray {first.number} ({first.arm}): no lamps known for 3 h of lit "
        "time; the average of the arm's other trays is used."
    ) in view.costs.words


def test_what_no_tray_has_is_said_with_its_reason(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    hang_lamps(book, WARM, LampSet(2, 20, "warm bar"))
    words = _stood(book, 0.5, 4.5).costs.words
    assert "Nothing can be said about costs: light, " in words
    assert "no price per kWh is entered" in words


def test_trays_without_a_weight_are_named_in_the_money(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.50")))
    for shelf in (WARM, COOL):
        hang_lamps(book, shelf, LampSet(2, 20, "bar"))
    make_trial(book, factor="brushing", arms=("none", "daily"), replicates=2)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, {"none": (400, 410), "daily": (405,)})
    bare = sown.arms[1].numbers[1]
    did(book, "cut", [bare])
    costs = judge_trial(book, "thick").costs
    assert f"Left out of the costs (not weighed): {bare}." in costs.words
    assert set(costs.per_100_g) == {"none", "daily"}


def test_trays_that_were_lost_are_named_in_the_money(book: Book) -> None:
    stand_at(book, "2026-03-30 08:00")
    set_tariff(book, Tariff(date(2026, 1, 1), Decimal("0.50")))
    for shelf in (WARM, COOL):
        hang_lamps(book, shelf, LampSet(2, 20, "bar"))
    make_trial(book, factor="brushing", arms=("none", "daily"), replicates=3)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, {"none": (400, 410, 402), "daily": (405, 0)})
    rotten = sorted(sown.arms[1].numbers[1:])
    discard(book, rotten[1:], "mould")
    words = judge_trial(book, "thick").costs.words
    assert (
        "Left out of the costs (nothing was cut from them; their seed, work and light come on "
        f"top): {numbers_words(rotten)}."
    ) in words


def test_light_that_was_not_measured_is_said_once_for_all_trays(book: Book) -> None:
    sown, numbers = _lit(book)
    move(book, numbers, COOL)
    for number in numbers:  # one after another: each has other hours than the next
        later(book, 0.25 / 24)
        move(book, [number], WARM)
    later(book, 3.5 / 24)
    cut(book, sown, {"none": (400, 410), "daily": (405, 415)})
    said = [words for words in judge_trial(book, "thick").confounders.words if "measured" in words]
    hours, trays = "15 min to 1 h of 4 h 30 min", f"trays {numbers[0]}–{numbers[-1]}"
    rest = "mean PPFD and DLI are those of the time that was measured."
    assert said == [f"Light was not measured for {hours} under lit lamps ({trays}): {rest}"]


def test_water_of_which_nothing_is_written_down_is_not_alike_but_unknown(book: Book) -> None:
    make_trial(book, factor="brushing", arms=("none", "daily"), replicates=2)
    sown = sow_all(book, "2026-04-01 08:00")
    numbers = [number for number, _ in sown.spots]
    later(book, 5)
    did(book, "light_on", numbers)
    found = judge_trial(book, "thick").confounders
    assert "waterings are not recorded for any tray." in found.words
    assert "water given is not recorded for any tray." in found.words
    assert not {"waterings", "water given"} & set(found.alike)

    did(book, "water", numbers[:-1], amount_ml=300)
    found = judge_trial(book, "thick").confounders
    assert f"waterings are not recorded for 1 tray ({numbers[-1]})." in found.words
    did(book, "water", numbers[-1:], amount_ml=300)
    assert {"waterings", "water given"} <= set(judge_trial(book, "thick").confounders.alike)
