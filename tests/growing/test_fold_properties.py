"""What must hold for any crop and any day of a tray's life."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.growing.crops.templates import (
    COVERS,
    LIGHTS,
    WATERS,
    CropTemplate,
    CutWindow,
    Stage,
    checked,
)
from logbook.growing.days import day_of, zone_named
from logbook.growing.trays.chores import BOTH, CHANGES, RoomHours, change_into
from logbook.growing.trays.forecast import (
    changes_ahead,
    chores_of_tray,
    cut_window,
    stage_for_chore,
    stage_starts,
)
from logbook.growing.trays.life import Alike, Deed, fold_deeds, fold_tray, stage_end
from logbook.growing.trays.round import make_round
from logbook.growing.trays.tray_now import TrayNow
from tests.room import DAY, HOUR, a_tray, crop_of

PER_DAY = st.sampled_from((0.0, 0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 12.0))


@st.composite
def stages(draw: st.DrawFn, *, last: bool) -> Stage:
    water = draw(st.sampled_from(WATERS))
    length = draw(st.integers(1, 120)) * HOUR
    return Stage(
        draw(st.sampled_from(("a", "b", "weighted"))),
        None if last and draw(st.booleans()) else length,
        draw(st.sampled_from(COVERS)),
        draw(st.sampled_from(LIGHTS)),
        water,
        0.0 if water == "none" else draw(PER_DAY),
        draw(PER_DAY),
    )


@st.composite
def crops(draw: st.DrawFn) -> CropTemplate:
    count = draw(st.integers(1, 5))
    made = [draw(stages(last=number == count - 1)) for number in range(count)]
    ends = sorted(draw(st.integers(0, 200)) * HOUR for _ in range(3))
    soak = draw(st.sampled_from((0, 4 * HOUR, 12 * HOUR)))
    return checked(crop_of(*made, cut=CutWindow(*ends), soak_seconds=soak))


ZONES = st.sampled_from(
    ("Europe/London", "America/New_York", "Pacific/Auckland", "Africa/Cairo", "UTC")
)
MOMENTS = st.datetimes(
    datetime.fromisoformat("2026-01-01"), datetime.fromisoformat("2027-01-01")
).map(lambda at: at.replace(tzinfo=UTC, microsecond=0))


@given(crops(), MOMENTS)
def test_the_planned_end_of_the_last_stage_is_sowing_and_all_lengths(
    crop: CropTemplate, at: datetime
) -> None:
    starts = stage_starts(crop, 0, at)
    assert len(starts) == len(crop.stages)
    assert starts[-1] - at == timedelta(seconds=crop.planned_seconds())
    end = stage_end(starts[-1], crop.stages[-1])
    if end is not None:
        assert end - at == timedelta(seconds=sum(stage.seconds or 0 for stage in crop.stages))
    window = cut_window(crop, 0, at)
    assert window.start <= window.best <= window.by


@given(crops(), MOMENTS, st.lists(st.integers(0, 30 * DAY), max_size=12), ZONES)
def test_a_tray_that_is_kept_to_its_plan_ends_in_the_last_stage(
    crop: CropTemplate, at: datetime, waterings: list[int], zone: str
) -> None:
    hours = RoomHours(zone_named(zone))
    deeds = [Deed(1, "sow", at)]
    deeds += [Deed(0, "change", each.at, stage=each.stage) for each in changes_ahead(crop, 0, at)]
    deeds += [Deed(0, "water", at + timedelta(seconds=each)) for each in waterings]
    deeds = [replace(deed, entry=number) for number, deed in enumerate(deeds, 1)]
    starts = stage_starts(crop, 0, at)
    for number, start in enumerate(starts):
        until = [deed for deed in deeds if deed.at <= start]
        state = fold_tray(crop, until, hours, start)
        assert (state.stage, state.stage_since) == (number, start)


KINDS = ("plan", "soak", "sow", "move", "water", "skip", "cut_keep", "weigh", "discard")


@given(
    crops(), MOMENTS,
    st.lists(st.tuples(st.sampled_from(KINDS), st.integers(0, 30), st.booleans()), max_size=9),
)  # fmt: skip
def test_trays_that_are_folded_together_stand_as_each_by_itself(
    crop: CropTemplate, at: datetime, done: list[tuple[str, int, bool]]
) -> None:
    hours = RoomHours(zone_named("Europe/London"))
    alike: Alike = {}
    for slot in (1, 2, 3):
        deeds = [
            Deed(nth, kind, at + timedelta(hours=after), place=slot if there else 7, slot=slot,
                 chore="cut" if kind == "skip" else "")
            for nth, (kind, after, there) in enumerate(done, 1)
        ]  # fmt: skip
        assert fold_deeds(crop, deeds, hours, alike) == fold_deeds(crop, deeds, hours)
    assert len(alike) == 1


@given(crops(), MOMENTS, st.integers(0, 60 * 24), ZONES, st.booleans())
@settings(max_examples=150)
def test_marking_everything_done_empties_the_round(
    crop: CropTemplate, at: datetime, later_hours: int, zone: str, planned: bool
) -> None:
    hours = RoomHours(zone_named(zone))
    now = at + timedelta(hours=later_hours)
    today = day_of(now, hours.zone)
    deeds = (
        [Deed(1, "plan", at - timedelta(days=1), planned_for=at)]
        if planned
        else [Deed(1, "sow", at)]
    )

    def due() -> list[str]:
        state = fold_tray(crop, deeds, hours, now)
        tray = TrayNow(a_tray(101), crop, state, None, hours, now, None)
        return [line.chore for line in make_round([tray], now, today).due]

    for _ in range(4 * len(crop.stages) + 4):
        chores = due()
        if not chores:
            break
        for chore in chores:
            state = fold_tray(crop, deeds, hours, now)
            stage = stage_for_chore(crop, state, chore)
            kind = "change" if chore in CHANGES else chore
            if chore == BOTH:
                deeds.append(Deed(len(deeds) + 1, "water", now))
                kind = "glance"
            if kind == "change" and stage is None:
                continue
            deeds.append(Deed(len(deeds) + 1, kind, now, stage=stage, chore=chore))
    assert due() == []


@given(crops(), MOMENTS, st.integers(0, 40 * 24), st.integers(0, 30), ZONES)
def test_every_day_s_chores_fall_on_that_day_and_each_time_once(
    crop: CropTemplate, at: datetime, later_hours: int, days_ahead: int, zone: str
) -> None:
    hours = RoomHours(zone_named(zone))
    now = at + timedelta(hours=later_hours)
    state = fold_tray(crop, [Deed(1, "sow", at)], hours, now)
    today = day_of(now, hours.zone)
    day = today + timedelta(days=days_ahead)
    found = chores_of_tray(crop, state, now, day, hours)
    times = [(each.chore, each.due_at) for each in found]
    assert len(times) == len(set(times))
    for each in found:
        offered = each.due_at if each.chore == "cut" else each.walk_at
        fallen = day_of(offered, hours.zone)
        walked_next = day_of(hours.walk_at(now), hours.zone)
        assert fallen == day if day > walked_next else fallen <= day
        assert each.later == (offered > now)
        assert each.walk_at >= each.due_at
        walk = each.walk_at.astimezone(hours.zone)
        here = each.walk_at in (each.due_at, at)
        assert here or hours.start <= walk.hour * 60 + walk.minute < hours.end
        assert 0 <= each.stage < len(crop.stages)
        assert each.words


@given(crops(), MOMENTS, st.permutations(range(5)), ZONES)
def test_the_order_in_which_deeds_are_read_does_not_matter(
    crop: CropTemplate, at: datetime, order: list[int], zone: str
) -> None:
    hours = RoomHours(zone_named(zone))
    deeds = [
        Deed(1, "sow", at),
        Deed(2, "water", at + timedelta(hours=20)),
        Deed(3, "look", at + timedelta(hours=20), sign=True),
        Deed(4, "water", at + timedelta(hours=50)),
        Deed(5, "weigh", at + timedelta(hours=70), grams=100.0, part=True),
    ]
    now = at + timedelta(hours=80)
    shuffled = [deeds[number] for number in order]
    assert fold_tray(crop, shuffled, hours, now) == fold_tray(crop, deeds, hours, now)


@given(crops())
def test_a_quiet_change_has_neither_name_nor_words_and_a_loud_one_both(crop: CropTemplate) -> None:
    for stage in range(len(crop.stages)):
        change = change_into(crop, stage)
        assert bool(change.parts) == bool(change.chore) == bool(change.words)
        assert change.chore in ("", *CHANGES)
