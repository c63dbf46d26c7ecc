"""The round: one line for trays that share place, batch and chore, in walking order."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.room.places import Place
from logbook.growing.trays.forecast import is_late
from logbook.growing.trays.life import Deed
from logbook.growing.trays.round import Round, make_round
from logbook.growing.trays.tray_now import TrayNow
from tests.room import (
    HOURS,
    a_tray,
    changed,
    day,
    field_test,
    moment,
    skipped,
    sown,
    tray_after,
    watered,
)

SOWN = moment("2026-04-01 08:00")
LIT = [sown(SOWN), changed(moment("2026-04-05 08:00"), 1), changed(moment("2026-04-06 08:00"), 2)]
WATERED = [*LIT, watered(moment("2026-04-06 08:10"))]


def tray(
    number: int, deeds: list[Deed], now: datetime, *, batch: int = 1, shelf: int = 1,
    crop: CropTemplate | None = None,
) -> TrayNow:  # fmt: skip
    crop = crop or field_test()
    state = replace(tray_after(crop, deeds, now), place=shelf)
    spot = Place(shelf, "shelf", f"Shelf {shelf}", f"Rack 1/Shelf {shelf}", (1, 1, shelf))
    return TrayNow(a_tray(number, batch), crop, state, spot, HOURS, now, None)


def round_of(*trays: TrayNow, now: str, on: str = "") -> Round:
    return make_round(trays, moment(now), day(now[:10]), day(on) if on else None)


def lines(found: Round) -> list[tuple[str, str, tuple[int, ...]]]:
    return [(line.place[-1], line.chore, line.numbers) for line in found.lines]


def test_trays_that_share_place_batch_stage_and_chore_are_one_line() -> None:
    now = moment("2026-04-07 07:30")
    found = round_of(
        tray(103, WATERED, now), tray(101, WATERED, now), tray(102, WATERED, now, shelf=2),
        tray(104, WATERED, now, batch=2), now="2026-04-07 07:30",
    )  # fmt: skip
    assert lines(found) == [
        ("1", "water", (101, 103)), ("1", "water", (104,)), ("2", "water", (102,)),
    ]  # fmt: skip
    assert found.stops == 2
    assert found.lines[0].day_number == 7
    assert found.lines[0].stage == "light"


def test_trays_of_one_batch_want_together_what_each_wants_alone() -> None:
    now = moment("2026-04-07 07:30")
    differ = [
        LIT, WATERED, LIT[:2], LIT[:1],
        [*WATERED, watered(moment("2026-04-07 07:00"))],
        [*WATERED, skipped(moment("2026-04-07 07:10"), "water")],
        [*LIT[:1], skipped(moment("2026-04-07 07:10"), "weight_off")],
        [*WATERED, Deed(9, "look", moment("2026-04-07 07:20"), sign=True)],
    ]  # fmt: skip
    trays = [tray(number, deeds, now) for number, deeds in enumerate([*differ, *differ], 101)]

    def wants(found: Round) -> set[tuple[int, str, datetime, datetime]]:
        return {
            (each.number, line.chore, each.due_at, each.walk_at)
            for line in found.lines
            for each in line.trays
        }

    alone = [wants(round_of(each, now="2026-04-07 07:30")) for each in trays]
    assert wants(round_of(*trays, now="2026-04-07 07:30")) == set().union(*alone)


def test_trays_of_one_batch_may_be_in_different_stages() -> None:
    now = moment("2026-04-06 09:00")
    found = round_of(
        tray(101, LIT, now),
        tray(102, LIT[:2], now),
        tray(103, LIT[:1], now),
        now="2026-04-06 09:00",
    )
    by_tray = {(line.numbers, line.chore): line.stage for line in found.due}
    assert by_tray[(101,), "water"] == "light"
    assert by_tray[(103,), "water_look"] == "weighted"
    assert len({line.key for line in found.lines}) == len(found.lines)
    assert by_tray[(102,), "light_on"] == "blackout"
    assert by_tray[(103,), "weight_off"] == "weighted"


def test_what_is_later_today_lies_below() -> None:
    found = round_of(tray(101, WATERED, moment("2026-04-07 06:00")), now="2026-04-07 06:00")
    assert found.due == ()
    assert [line.chore for line in found.waiting] == ["water"]
    assert found.waiting[0].when_words(found.now) == "07:00"


def test_a_cut_that_is_best_later_today_is_for_now() -> None:
    found = round_of(tray(101, WATERED, moment("2026-04-08 06:00")), now="2026-04-08 06:00")
    (cut,) = [line for line in found.due if line.chore == "cut"]
    assert (cut.later, cut.overdue) == (True, False)
    assert cut.when_words(found.now) == "best today"


def test_words_say_how_late() -> None:
    deeds = [*WATERED, watered(moment("2026-04-07 08:00"))]
    found = round_of(tray(101, deeds, moment("2026-04-08 21:00")), now="2026-04-08 21:00")
    words = {line.chore: line.when_words(found.now) for line in found.due}
    assert words == {"water": "late, watered 37 h ago", "cut": "best today"}
    after = round_of(tray(101, deeds, moment("2026-04-11 09:00")), now="2026-04-11 09:00")
    assert {line.chore: line.when_words(after.now) for line in after.due}["cut"] == "late 25 h"


def test_the_round_of_a_later_day_has_that_day_s_number_and_stage() -> None:
    now = moment("2026-04-01 09:00")
    found = round_of(tray(101, LIT[:1], now), now="2026-04-01 09:00", on="2026-04-07")
    assert [(line.chore, line.day_number, line.stage) for line in found.lines] == [
        ("water", 7, "light")
    ]


def test_before_the_sowing_the_day_is_the_first() -> None:
    plan = [Deed(0, "plan", moment("2026-03-30 08:00"), planned_for=SOWN)]
    for today in ("2026-03-31", "2026-04-01", "2026-04-03"):
        now = f"{today} 09:00"
        found = round_of(tray(101, plan, moment(now)), now=now)
        assert {line.day_number for line in found.lines} <= {1}
        assert {line.stage for line in found.lines} <= {""}


def test_trays_with_no_place_stand_on_the_bench() -> None:
    now = moment("2026-04-07 07:30")
    loose = replace(tray(101, WATERED, now), spot=None)
    assert round_of(loose, now="2026-04-07 07:30").lines[0].place == "bench"


def test_a_line_is_due_when_the_first_of_its_trays_is() -> None:
    # given two trays of a batch that were sown three hours apart, the later one first
    now = "2026-04-05 13:00"
    first, second = sown(SOWN), sown(moment("2026-04-01 11:00"))
    found = round_of(
        tray(101, [second], moment(now)), tray(102, [first], moment(now)), now=now
    )  # fmt: skip
    (off,) = [line for line in found.due if line.chore == "weight_off"]
    assert off.due_at == moment("2026-04-05 08:00")
    assert [each.due_at for each in off.trays] == [
        moment("2026-04-05 11:00"), moment("2026-04-05 08:00"),
    ]  # fmt: skip
    # and its window is that of the first too
    late = "2026-04-08 23:30"
    lit = [changed(moment("2026-04-05 11:00"), 1), changed(moment("2026-04-06 11:00"), 2)]
    found = round_of(
        tray(101, [second, *lit], moment(late)), tray(102, LIT, moment(late)), now=late
    )  # fmt: skip
    (cut,) = [line for line in found.due if line.chore == "cut"]
    assert cut.window is not None
    assert cut.window.best == moment("2026-04-08 20:00")


@pytest.mark.parametrize(
    ("chore", "after", "late"),
    [
        ("light_on", timedelta(minutes=59), False),
        ("light_on", timedelta(hours=1), True),
        ("water", timedelta(hours=3, minutes=59), False),
        ("look", timedelta(hours=4), True),
        ("cut", timedelta(0), False),
        ("cut", timedelta(seconds=1), True),
    ],
)
def test_a_chore_is_called_late_after_an_hour_and_the_morning_s_walk_after_four(
    chore: str, after: timedelta, late: bool
) -> None:
    assert is_late(chore, SOWN, SOWN + after) is late


def test_words_of_a_line_by_what_it_is_and_when() -> None:
    def words(deeds: list[Deed], now: str, chore: str, *, brief: bool = False) -> str:
        found = round_of(tray(101, deeds, moment(now)), now=now)
        (line,) = [each for each in found.lines if each.chore == chore]
        return line.when_words(found.now, brief=brief)

    seen = [*WATERED, Deed(0, "look", moment("2026-04-07 12:00"), sign=True)]
    assert words([sown(SOWN)], "2026-04-05 08:59", "weight_off") == "since 08:00"
    assert words([sown(SOWN)], "2026-04-05 10:00", "weight_off") == "late 2 h"
    assert words([sown(SOWN)], "2026-04-02 08:00", "water_look") == "not watered yet"
    assert words([sown(SOWN)], "2026-04-02 11:00", "water_look") == "late, not watered yet"
    assert words([sown(SOWN)], "2026-04-02 06:00", "water_look") == "07:00"
    assert words(WATERED, "2026-04-09 08:00", "cut").startswith("by Fri 10 Apr")
    assert words(WATERED, "2026-04-10 07:00", "cut") == "last day"
    assert words(WATERED, "2026-04-10 08:01", "cut").startswith("late ")
    assert "sign seen" in words(seen, "2026-04-07 13:00", "cut")


def test_a_sown_tray_on_which_mould_was_seen_is_named_by_the_round_and_its_line() -> None:
    now = "2026-04-07 07:30"
    mouldy = [*WATERED, Deed(0, "look", moment("2026-04-06 09:00"), mould="spot")]
    gone = [*mouldy, Deed(0, "discard", moment("2026-04-06 10:00"))]
    found = round_of(
        tray(103, mouldy, moment(now)), tray(101, WATERED, moment(now)),
        tray(102, mouldy, moment(now)), tray(104, gone, moment(now)), now=now,
    )  # fmt: skip
    assert found.mouldy == (102, 103)
    (line,) = found.due
    assert (line.numbers, line.mouldy) == ((101, 102, 103), (102, 103))
    assert line.mould_words == "mould: 102 103"
    assert round_of(tray(101, WATERED, moment(now)), now=now).due[0].mould_words == ""


def test_a_look_of_the_last_stage_asks_for_the_sign_and_no_other_chore_does() -> None:
    looks = field_test(stages=tuple(replace(one, looks_per_day=1.0) for one in field_test().stages))
    now = "2026-04-07 08:00"
    found = round_of(
        tray(101, WATERED, moment(now), crop=looks),
        tray(102, LIT[:2], moment(now), crop=looks),
        now=now,
    )
    signs = {(line.chore, line.stage): line.sign for line in found.lines}
    assert signs == {
        ("water_look", "light"): "first true leaves",
        ("look", "blackout"): "", ("light_on", "blackout"): "",
    }  # fmt: skip
    words = {line.stage: line.when_words(found.now) for line in found.lines if "look" in line.chore}
    assert words == {"light": "watered 23 h ago, first true leaves?", "blackout": "late 25 h"}


def test_trays_that_want_water_and_some_of_them_a_look_are_one_line() -> None:
    looks = field_test(stages=tuple(replace(one, looks_per_day=1.0) for one in field_test().stages))
    now = moment("2026-04-07 08:00")
    glanced = [*WATERED, Deed(0, "glance", now - timedelta(minutes=5))]
    wet = [*WATERED, watered(now - timedelta(minutes=5))]
    trays = (tray(101, WATERED, now, crop=looks), tray(102, glanced, now, crop=looks),
             tray(103, wet, now, crop=looks), tray(104, WATERED, now, crop=looks))  # fmt: skip
    found = round_of(*trays, now="2026-04-07 08:00")
    assert {(line.chore, line.words, line.numbers) for line in found.due} == {
        ("water_look", "water, look", (101, 102, 104)), ("look", "look", (103,)),
    }  # fmt: skip
    # a glance is no look: what was seen last is not of it
    assert trays[1].last("look") is None
    # later today they are one line only where both come at the same walk
    evening = [*WATERED, watered(moment("2026-04-07 07:10"))]
    twice = field_test(stages=tuple(
        replace(one, water_per_day=2.0, looks_per_day=1.0) for one in field_test().stages
    ))  # fmt: skip
    found = round_of(tray(101, evening, now, crop=twice), now="2026-04-07 08:00", on="2026-04-07")
    assert [(line.chore, line.later) for line in found.lines] == [("look", False), ("water", True)]


@pytest.mark.parametrize(
    ("now", "asked"),
    [("13:59", True), ("14:00", False), ("19:59", False), ("20:00", True)],
)
def test_in_the_last_six_hours_before_its_cut_a_tray_is_not_asked_for_water(
    now: str, asked: bool
) -> None:
    # given a tray that was not watered today, best cut at 20:00
    at = f"2026-04-08 {now}"
    found = round_of(tray(101, WATERED, moment(at)), now=at)
    assert ("water" in {line.chore for line in found.due}) is asked
    assert "cut" in {line.chore for line in found.due}


def test_lines_come_as_one_walks_then_by_time_then_in_the_order_of_a_tray_s_life() -> None:
    now = moment("2026-04-07 07:30")
    early, late = tray(103, WATERED, now, shelf=2), tray(101, LIT[:1], now, batch=2, shelf=2)
    far = replace(tray(104, WATERED, now), spot=Place(9, "shelf", "1", "Rack 9/Shelf 1", (9,)))
    found = round_of(far, early, late, tray(102, WATERED, now, batch=3, shelf=2),
                     now="2026-04-07 07:30")  # fmt: skip
    assert [(line.place[-3:], line.chore, line.batch) for line in found.lines] == [
        ("f 2", "water_look", "2"), ("f 2", "weight_off", "2"),
        ("f 2", "water", "1"), ("f 2", "water", "3"), ("f 1", "water", "1"),
    ]  # fmt: skip
    assert (found.stops, found.late) == (2, 2)


def test_what_waits_is_in_order_of_time_and_no_stop_yet() -> None:
    now = "2026-04-05 06:00"
    off = tray(101, [sown(moment("2026-04-01 06:30"))], moment(now), batch=2)
    wet = [sown(SOWN), watered(moment("2026-04-04 08:00"))]
    found = round_of(tray(102, wet, moment(now)), off, now=now)
    assert [(line.chore, line.numbers) for line in found.waiting] == [
        ("weight_off", (101,)), ("water", (102,)), ("weight_off", (102,)),
    ]  # fmt: skip
    assert {line.chore for line in found.due} == {"water_look", "look"}
    assert found.stops == 1


def test_what_was_never_watered_or_looked_at_has_no_last_time() -> None:
    now = moment("2026-04-03 08:00")
    dry, wet = tray(101, [sown(SOWN)], now), tray(102, [*WATERED[:1], watered(now)], now)
    looked = tray(103, [sown(SOWN), Deed(0, "look", now)], now)
    assert [(each.last("water"), each.last("look")) for each in (dry, wet, looked)] == [
        (None, None), (now, None), (None, now),
    ]  # fmt: skip


def test_a_round_s_first_day_is_one_or_nought_as_the_room_counts() -> None:
    now = moment("2026-04-02 08:00")
    hours = replace(HOURS, first_day=0)
    (line,) = [
        each
        for each in make_round(
            [replace(tray(101, LIT[:1], now), hours=hours)], now, day("2026-04-02")
        ).lines
        if each.chore == "water_look"
    ]
    assert line.day_number == 1


def test_a_cut_s_words_name_the_day_that_is_best_and_the_last_one() -> None:
    def words(now: str, on: str) -> str:
        found = round_of(tray(101, WATERED, moment(now)), now=now, on=on)
        (line,) = [each for each in found.lines if each.chore == "cut"]
        return line.when_words(found.now)

    assert words("2026-04-07 21:00", "2026-04-08") == "best Wed 8 Apr"
    assert words("2026-04-08 21:00", "2026-04-08") == "best today"
    assert words("2026-04-09 07:00", "2026-04-09") == "by Fri 10 Apr"
    unknown = replace(round_of(tray(101, WATERED, moment("2026-04-09 07:00")),
                               now="2026-04-09 07:00").due[-1], window=None)  # fmt: skip
    assert unknown.when_words(moment("2026-04-09 07:00")) == "ready"
