"""Chores done, skipped, looked at, moved, discarded."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.due import due
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page, search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import round_view, the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.crops.templates import Stage
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from logbook.ways import Way
from tests.actions.days import chores, counts, sow_at, stand_at, views
from tests.room import DAY, crop_of, day, moment, wall_words


def test_a_late_change_moves_what_follows_for_those_trays_alone(book: Book) -> None:
    # given: four trays due to have their weight off on the 5th at 08:00
    sow_at(book, "2026-04-01 08:00", 4)
    stand_at(book, "2026-04-05 14:00")
    # when: two of them six hours late, one at its time and recorded now
    did(book, "weight_off", [101, 102])
    did(book, "weight off", [103], moment("2026-04-05 08:00"))
    # then
    stand_at(book, "2026-04-06 08:00")
    assert ("light_on", (103,)) in chores(book)
    stand_at(book, "2026-04-06 14:00")
    lights = [numbers for chore, numbers in chores(book) if chore == "light_on"]
    assert lights == [(101, 102, 103)]
    assert ("weight_off", (104,)) in chores(book)
    best = {tray.number: wall_words(tray.window.best) for tray in due(book, 30)}
    assert best[104] > best[101]


def test_a_change_recorded_for_before_a_quiet_one_counts_from_its_stage_then(book: Book) -> None:
    # given: a crop whose misting ends by itself after a day, its weight coming off after two
    stand_at(book, "2026-04-01 08:00")
    put_template(
        book,
        crop_of(
            Stage("wet", DAY, "weight", "dark", "mist", 1.0),
            Stage("dry", DAY, "weight", "dark"),
            Stage("light", None, "none", "lit", "bottom", 1.0),
        ),
    )
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("odd", 2))
    stand_at(book, "2026-04-02 14:00")
    # when: the weight came off 20 h after the sowing, and that is recorded after 30 h
    did(book, "weight_off", [101], moment("2026-04-02 04:00"))
    # then
    assert tray_page(book, 101).tray.stage == "light"
    assert tray_page(book, 102).tray.stage == "dry"
    with pytest.raises(Refused, match="weight off doesn't come after it"):
        did(book, "weight_off", [101], moment("2026-04-02 03:00"))


def test_a_skip_by_any_part_of_a_change_puts_the_whole_change_off(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-05 09:00")
    skip(book, "lid on", [101], "not up yet")
    assert ("weight_off", (102,)) in chores(book)
    assert ("weight_off", (101,)) in chores(book, "2026-04-06")
    with pytest.raises(
        Refused, match='no "under lights" before it to skip; next is weight off, lid on'
    ):
        skip(book, "light_on", [102], "no lamp")


@pytest.mark.parametrize("chore", ["water", "look", "water_look"])
def test_a_skipped_daily_chore_waits_for_its_next_time(book: Book, chore: str) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-02 08:00")
    left = {"water": ["look"], "look": ["water"]}.get(chore, [])
    assert [each for each, _ in chores(book)] == ["water_look"]
    skip(book, chore, [101], "wet enough")
    assert [each for each, _ in chores(book)] == left
    assert page(book)[-1].words == f"skipped {chore.removeprefix('water_')}"
    stand_at(book, "2026-04-03 08:00")
    assert [each for each, _ in chores(book)] == ["water_look"]


def test_one_act_waters_and_glances_at_trays_and_undo_takes_both(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-02 08:00")
    asked = chores(book)
    done = did(book, "water, look", [101, 102], amount_ml=300)
    assert (done.words.replace(", 08:00", ""), chores(book)) == (
        "water, look: 101 102, 300 ml each",
        [],
    )
    assert [(each.kind, each.words) for each in page(book)[-2:]] == [
        ("water", "watered: 300 ml each"), ("glance", "glanced at"),
    ]  # fmt: skip
    undo(book)
    assert chores(book) == asked


def test_a_sign_to_cut_makes_the_cut_due(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-06 08:00")
    did(book, "light_on", [101, 102])
    assert due(book, 0) == []
    done = look(book, [101], Look(sign="first true leaves"))
    assert done.sign
    assert ("cut", (101,)) in chores(book)
    (ready,) = due(book, 0)
    assert (ready.number, ready.ready, ready.sign_seen) == (101, "ready", True)


@pytest.mark.parametrize("mould", ["spot", "spread"])
def test_mould_brings_the_caution(book: Book, mould: str) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    done = look(book, [101], Look(mould=mould))
    assert done.mouldy
    assert "Do not sell or taste" in done.notices[0]
    assert "local food-safety rules" in done.notices[0]
    assert not look(book, [101], Look(mould="none")).notices


def test_only_what_was_filled_in_is_kept_and_words_are_cleaned(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    look(book, [101], Look(emerged_percent=90.0, height_mm=40.0, stem_colour="pi\x1bnk\u202e"))
    assert page(book)[-1].words == "look: 90 % emerged, 4 cm high, stems pink"
    look(book, [101], Look(), "all well")
    assert (page(book)[-1].words, page(book)[-1].note) == ("look", "all well")


def test_water_with_its_amount(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    did(book, "water", [101, 102], amount_ml=300, note="warm")
    assert page(book)[-1].words == "watered: 300 ml each"


def test_moving_to_a_shelf_a_slot_or_with_a_change(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3, place="Rack 1/Shelf 1")
    move(book, [101, 103], "Rack 2/Shelf 2")
    move(book, [102], "Rack 2/Shelf 2/4")
    shelf = next(shelf for rack in racks(book).racks for shelf in rack.shelves if shelf.used)
    assert (shelf.place.path, [(tray.number, tray.slot) for tray in shelf.trays]) == (
        "Rack 2/Shelf 2", [(101, 1), (103, 2), (102, 4)],
    )  # fmt: skip
    stand_at(book, "2026-04-05 08:00")
    did(book, "weight_off", [101], place="Rack 1/Shelf 4")
    assert tray_page(book, 101).tray.place == "Rack 1/Shelf 4"


def test_a_change_on_the_shelf_where_trays_stand_is_no_move(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 1")
    move(book, [102], "Rack 1/Shelf 2")
    did(book, "weight_off", [101, 102], place="Rack 1/Shelf 1")
    moves = [line.trays for line in page(book) if line.kind == "move"]
    assert moves == [(102,), (102,)]
    assert tray_page(book, 102).tray.place == "Rack 1/Shelf 1"


def test_a_jot_on_a_cut_tray_and_the_book_s_search(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    weigh(book, [101], 400)
    jot(book, [101], "Straße: TASTES of [100%] pepper 🌶")
    assert [line.note for line in search(book, "strasse: tastes of [100%]")] == [
        "Straße: TASTES of [100%] pepper 🌶"
    ]
    assert search(book, "%") != []
    assert search(book, "pepper%") == []


def test_a_tray_that_was_marked_as_cut_can_still_be_weighed_once(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-08 21:00")
    did(book, "cut", [101])
    assert tray_page(book, 101).tray.state.grams is None
    (weighed,) = weigh(book, [101], 594)
    assert (weighed.grams_per_gram_seed, weighed.day_number) == (5.94, 8)
    with pytest.raises(Refused, match="no longer growing"):
        weigh(book, [101], 594)


def test_trays_that_ended_in_two_ways_are_told_apart(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 4)
    stand_at(book, "2026-04-08 21:00")
    weigh(book, [101], 500)
    discard(book, [103, 104], "mould")
    said = r"^Trays 101 103 104 are no longer growing \(cut: 101, discarded: 103 104\)\.$"
    with pytest.raises(Refused, match=said):
        weigh(book, [101, 102, 103, 104], 900)
    with pytest.raises(Refused, match=r"^Trays 103 104 are .* \(they were discarded\)\.$"):
        weigh(book, [103, 104], 900)


BAD: dict[str, tuple[Callable[[Book], object], str]] = {
    "unknown chore": (lambda book: did(book, "hose", [101]), 'no chore "hose"'),
    "unknown tray": (lambda book: did(book, "water", [999]), "no tray 999. Trays in use: 101–104"),
    "unknown trays": (lambda book: did(book, "water", [101, 998, 999]), "no trays 998 999"),
    "no such change": (lambda book: did(book, "weight_on", [101]), "Still to come: weight off, lid on"),
    "in the future": (lambda book: did(book, "water", [101], moment("2026-04-02 20:00")), "still to come"),
    "before its sowing": (lambda book: did(book, "water", [101], moment("2026-03-31 08:00")), "was sown"),
    "long ago": (lambda book: did(book, "water", [101], moment("2023-04-01 08:00")), "more than two years ago"),
    "amount without water": (lambda book: did(book, "look", [101], amount_ml=3), "Only water takes an amount"),
    "negative amount": (lambda book: did(book, "water", [101], amount_ml=-3), "more than 0 ml"),
    "sown already": (lambda book: did(book, "sow", [101]), "sown already"),
    "not sown yet": (lambda book: did(book, "water", [103]), f"not sown yet; write that first: {Way.DONE.of('sow 103')}"),
    "gel": (lambda book: did(book, "soak", [104]), "gels when soaked"),
    "skip without a reason": (lambda book: skip(book, "water", [101], " \x1b "), "give a reason"),
    "skip what is not": (lambda book: skip(book, "sow", [101], "x"), "no sow to skip"),
    "look with 120 %": (lambda book: look(book, [101], Look(emerged_percent=120.0)), "0 to 100"),
    "look at a giant": (lambda book: look(book, [101], Look(height_mm=9e9)), "0 to 200 cm"),
    "odd mould": (lambda book: look(book, [101], Look(mould="green")), "none, spot or spread"),
    "empty jot": (lambda book: jot(book, [101], "\x07 "), "the note is empty"),
    "long jot": (lambda book: jot(book, [101], "x" * 20_001), "20,001 characters"),
    "jot nowhere": (lambda book: jot(book, [], "x", place="Rack 7"), 'no place "Rack 7"'),
    "move nowhere": (lambda book: move(book, [101], "Attic"), 'no place "Attic"'),
    "move too many": (lambda book: move(book, [101, 102], "Rack 2/Shelf 1/1"), "one tray"),
    "move to a taken slot": (lambda book: move(book, [102], "Rack 1/Shelf 1/1"), "Slot 1 of Rack 1/Shelf 1 is not free. Free: 2, 3 and 4"),
    "move off the shelf": (lambda book: move(book, [102], "Rack 1/Shelf 1/9"), "has no slot 9"),
    "discard without a reason": (lambda book: discard(book, [101], ""), "give a reason"),
    "weigh a planned one": (lambda book: weigh(book, [103], 300), "not sown yet"),
    "weigh before the sowing": (lambda book: weigh(book, [101], 300, at=moment("2026-03-31 08:00")), "cannot have been cut before"),
    "weigh below nothing": (lambda book: weigh(book, [101], -1), "0 to 100,000 g"),
    "weigh a ton": (lambda book: weigh(book, [101], 1e6), "0 to 100,000 g"),
    "weigh nothing at all": (lambda book: weigh(book, [], 1), "Which tray"),
    "half of them unknown": (lambda book: weigh(book, [101, 999], 300), "no tray 999"),
    "round of the past": (lambda book: the_round(book, day("2026-03-31")), "is past"),
    "due in a thousand years": (lambda book: due(book, 365_000), "Give 0 to 366"),
    "search for nothing": (lambda book: search(book, " "), "Type a word"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_is_refused_in_a_sentence_and_nothing_is_written(
    book: Book, name: str
) -> None:
    # given: 101 under weight, 102 elsewhere, 103 and 104 planned
    act, words = BAD[name]
    sow_at(book, "2026-04-01 08:00", 1, place="Rack 1/Shelf 1")
    sow_at(book, "2026-04-01 09:00", 1, place="Rack 1/Shelf 2")
    sow_at(book, "2026-04-01 09:30", 1, at=moment("2026-04-03 08:00"))
    stand_at(book, "2026-04-01 09:31")
    sow(book, SowDraft("basil", 1, at=moment("2026-04-03 08:00")))
    stand_at(book, "2026-04-01 10:00")
    before, rows = views(book), counts(book)
    # when
    with pytest.raises(Refused, match=words) as refused:
        act(book)
    # then
    assert "\n" not in str(refused.value)
    assert counts(book) == rows
    assert views(book) == before


def test_a_page_is_narrowed_by_what_there_is(book: Book) -> None:
    with pytest.raises(Refused, match='There is no kind "nix"'):
        page(book, kind="nix")
    with pytest.raises(Refused, match='No crop is called "nix"'):
        page(book, crop="nix")


def test_trays_that_go_to_the_light_on_a_dark_shelf_are_said(book: Book) -> None:
    # given: a shelf of ours without lamps, and one with them
    add_place(book, PlaceDraft("Cellar", under="Rack 1", slots=4))
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, place="Cellar"))
    did(book, "weight_off", [101, 102])
    # when
    (notice,) = did(book, "light_on", [101]).notices
    # then
    assert notice.startswith("In the dark, as Rack 1/Cellar has no lamp hours: 101.")
    assert did(book, "light_on", [102], place="Rack 1/Shelf 1").notices == ()


def test_all_of_a_change_is_named_when_it_is_done_struck_and_on_the_page(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    stand_at(book, "2026-04-05 08:00")
    whole = "weight off, lid on"
    assert did(book, "weight_off", [101, 102]).words.startswith(f"{whole}: 101 102, ")
    assert page(book)[-1].words == whole
    assert undo(book).words == f"undone: {whole} 101 102"
    assert did(book, "lid_on", [101, 102]).words.startswith(f"{whole}: 101 102, ")
    entry = page(book)[-1].id
    assert strike(book, entry, "wrong shelf").words == f"struck out {whole} 101 102"
    assert skip(book, "weight_off", [103], "soft").words == f"skipped {whole}: 103"
    assert page(book)[-1].words == f"skipped {whole}"


def test_of_trays_whose_changes_differ_the_part_that_was_done_is_named(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    put_template(
        book,
        crop_of(
            Stage("pressed", 4 * DAY, "weight", "dark", "mist", 1.0),
            Stage("light", None, "none", "lit", "bottom", 1.0),
        ),
    )
    sow_at(book, "2026-04-01 08:00", 1)
    sow(book, SowDraft("odd", 1))
    stand_at(book, "2026-04-05 08:00")
    assert did(book, "weight_off", [101, 102]).words.startswith("weight off: 101 102, ")
    assert page(book)[-1].words == "weight off"


def test_a_deed_may_be_five_minutes_ahead_of_the_clock(book: Book) -> None:
    """A phone and a Pi differ by some minutes; more than five is another time that was meant."""
    sow_at(book, "2026-04-01 08:00", 1)
    ahead = book.now() + timedelta(minutes=5)
    with pytest.raises(Refused, match="still to come"):
        did(book, "water", [101], ahead + timedelta(seconds=1))
    did(book, "water", [101], ahead)
    assert page(book)[-1].at == ahead


def test_where_nothing_is_left_today_the_first_of_tomorrow_is_named(book: Book) -> None:
    assert round_view(book).empty
    assert round_view(book).after is None
    sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 2")
    view = round_view(book)
    assert not view.round.lines
    assert view.after is not None
    assert (wall_words(view.after.due_at), view.after.numbers) == ("2026-04-02 07:00", (101, 102))
    assert view.signs == {1: "first true leaves"}
    assert view.heads["Rack 1/Shelf 2"][0].startswith("lit ")
    stand_at(book, "2026-04-02 07:00")
    assert round_view(book).after is None


def test_changes_passed_over_are_said_and_quiet_ones_are_not(book: Book) -> None:
    # given a crop with a stage that comes by itself between two changes
    put_template(
        book,
        crop_of(
            Stage("weight", DAY, "weight", "dark"),
            Stage("lid", DAY, "lid", "dark"),
            Stage("lid, misted", DAY, "lid", "dark", "mist", 1.0),
            Stage("light", None, "none", "lit"),
        ),
    )
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("odd", 2))
    did(book, "weight off", [102])
    (said,) = did(book, "to the light", [101, 102]).notices
    assert "weight off, lid on (101)" in said
    assert [tray_page(book, number).tray.stage for number in (101, 102)] == ["light", "light"]


def test_what_is_done_at_the_moment_of_sowing_is_done_after_it(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 4)
    at, before = moment("2026-04-01 08:00"), moment("2026-04-01 07:59")
    acts: list[Callable[[datetime], object]] = [
        lambda when: did(book, "water", [101], when),
        lambda when: look(book, [101], Look(height_mm=1.0), at=when),
        lambda when: move(book, [101], "Rack 2", when),
        lambda when: did(book, "weight off", [101], when),
        lambda when: discard(book, [102], "spilled", when),
        lambda when: weigh(book, [103], 100, at=when),
    ]
    for act in acts:
        with pytest.raises(Refused):
            act(before)
        act(at)
    assert [tray_page(book, number).tray.status for number in (101, 102, 103)] == [
        "growing", "discarded", "cut",
    ]  # fmt: skip
