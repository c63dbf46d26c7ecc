"""Tape numbers that are used again: the pool, plans by their batch, and lives under one number."""

from __future__ import annotations

from datetime import date
from functools import partial

import pytest

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page, search
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.growing.page_filter import parse_filter
from logbook.text import Refused
from tests.actions.days import stand_at
from tests.room import moment


def sown(book: Book, trays: int, **more: object) -> tuple[int, ...]:
    return sow(book, SowDraft("Field test", trays, **more)).plan.numbers  # type: ignore[arg-type]


def test_new_trays_take_the_numbers_longest_out_of_use(book: Book) -> None:
    """The unused first, then by when they came free; a late entry counts from when it happened."""
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    assert sown(book, 4) == (1, 2, 3, 4)
    discard(book, [3], "mould")
    stand_at(book, "2026-04-02 08:00")
    discard(book, [2], "mould")
    assert sown(book, 3) == (3, 5, 6)
    with pytest.raises(Refused, match=r"pool 1-6 has only 1 number free for 2 new trays"):
        sown(book, 2)
    assert sown(book, 1, numbers=(40,)) == (40,)
    change_room(book, RoomDraft(pool=range(0)))
    assert sown(book, 1) == (101,)


def test_a_plan_further_ahead_goes_by_its_batch_until_it_is_soaked_or_sown(book: Book) -> None:
    """Eight weeks of plans leave the pool free; tomorrow's take their numbers at once."""
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    soon = sow(book, SowDraft("Field test", 2, at=moment("2026-04-02 09:00")))
    assert soon.plan.numbers == (1, 2)
    later = sow(book, SowDraft("Field test", 4, at=moment("2026-05-20 09:00")))
    name = f"b{later.batch}"
    assert numbers_words(later.plan.numbers) == f"{name}×4"
    assert sown(book, 4) == (3, 4, 5, 6)
    stand_at(book, "2026-04-12 08:00")
    discard(book, [3, 4, 5, 6], "cleared")

    jot(book, parse_numbers(name), "for the market")
    with pytest.raises(Refused, match=f"Tray {name} is not sown yet"):
        did(book, "water", parse_numbers(name))
    with pytest.raises(Refused, match=f"{name} has 4 trays, not 5"):
        did(book, "sow", parse_numbers(f"{name}x5"))
    stand_at(book, "2026-05-20 09:00")
    half = did(book, "sow", parse_numbers(f"{name}x2"), soaked="dry")
    assert half.numbers == (3, 4)
    assert did(book, "sow", parse_numbers(name), soaked="dry").numbers == (5, 6)
    assert did(book, "water", parse_numbers(name)).numbers == (3, 4, 5, 6)
    notes = [line.note for line in tray_page(book, 3).past]
    assert "for the market" in notes, "what was written before it had a number is its own"


def test_the_round_offers_a_waiting_batch_by_its_name(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    batch = sow(book, SowDraft("Field test", 3, at=moment("2026-04-20 09:00"))).batch
    stand_at(book, "2026-04-20 09:00")
    line = next(each for each in the_round(book).lines if each.chore in ("soak", "sow"))
    assert numbers_words(line.numbers) == f"b{batch}×3"
    assert did(book, line.chore, line.numbers, soaked=None).numbers == (1, 2, 3)


def test_a_plan_that_was_discarded_is_found_by_the_names_of_its_trays(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    later = sow(book, SowDraft("Field test", 3, at=moment("2026-05-20 09:00")))
    discard(book, later.plan.numbers[:2], "no order")
    shown = [tray for line in page(book, kind="discard") for tray in line.names]
    assert shown == list(later.plan.numbers[:2])
    assert [tray_page(book, each).tray.number for each in shown] == shown
    names = [each.name for each in batch_page(book, later.batch).trays]
    assert names == sorted(later.plan.numbers)


def test_a_corrected_plan_goes_by_its_new_batch(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 7)))
    batch = sow(book, SowDraft("Field test", 2, at=moment("2026-05-20 09:00"))).batch
    plan = batch_page(book, batch).past[0].id
    replace_entry(book, plan, "a week later", Changes(at=moment("2026-05-27 09:00")))
    with pytest.raises(Refused, match="no tray"):
        did(book, "sow", parse_numbers(f"b{batch}"))
    now = tuple(each.number for each in batch_page(book, str(int(batch) + 1)).trays)
    assert numbers_words(now) == f"b{int(batch) + 1}×2"
    undo(book)
    assert numbers_words(each.number for each in batch_page(book, batch).trays) == f"b{batch}×2"


@pytest.fixture
def two_lives(book: Book) -> Book:
    """Number 1 was a tray of 1 to 10 April, one of 12 April only, and grows since that evening."""
    stand_at(book, "2026-04-01 08:00")
    change_room(book, RoomDraft(pool=range(1, 3)))
    sown(book, 1, numbers=(1,))
    jot(book, [1], "the first")
    stand_at(book, "2026-04-10 08:00")
    weigh(book, [1], 280)
    stand_at(book, "2026-04-12 08:00")
    sown(book, 1, numbers=(1,))
    jot(book, [1], "the second")
    discard(book, [1], "dropped")
    stand_at(book, "2026-04-13 18:00")
    return book


def test_a_bare_number_is_the_life_that_grows_and_a_day_names_an_earlier_one(
    two_lives: Book,
) -> None:
    book = two_lives
    with pytest.raises(
        Refused, match=r"2 had that number\. Which of them: 1@2026-04-01 or 1@2026-04-12"
    ):
        jot(book, [1], "which?")
    sown(book, 1, numbers=(1,))
    jot(book, [1], "the third")
    jot(book, parse_numbers("1@2026-04-05"), "late, of the first")
    with pytest.raises(Refused, match="There is no tray 1@2026-04-11"):
        jot(book, parse_numbers("1@2026-04-11"), "of none")

    def notes(name: str) -> list[str]:
        page = tray_page(book, *parse_numbers(name))
        return [line.note for line in page.past if line.kind == "jot"]

    assert notes("1") == notes("1@2026-04-13") == ["the third"]
    assert notes("1@2026-04-10") == ["the first", "late, of the first"]
    assert notes("1@2026-04-12") == ["the second"]
    with pytest.raises(Refused, match=r"Tray 1 was then field test, .* 1@2026-04-01\."):
        weigh(book, [1], 280, at=moment("2026-04-09 08:00"))
    book.said_at = moment("2026-04-09 08:00")
    for write in (partial(jot, book, [1], "late"), partial(skip, book, "look", [1], "late")):
        with pytest.raises(Refused, match=r"cannot have been done before that\. Tray 1 was then"):
            write()
    others = [each.words(book.now(), book.zone) for each in tray_page(book, 1).other_lives]
    assert others == [
        "field test, Wed 1 Apr to Fri 10 Apr, 1@2026-04-01",
        "field test, Sun 12 Apr, 1@2026-04-12",
    ]  # fmt: skip


def test_a_jot_from_before_its_tray_was_planned_or_sown_is_refused(book: Book) -> None:
    stand_at(book, "2026-04-09 08:00")
    sow(book, SowDraft("field test", 1, at=moment("2026-04-10 08:00")))
    stand_at(book, "2026-04-10 08:00")
    did(book, "sow", [101])
    sow(book, SowDraft("field test", 1))
    said = "cannot have been done before that"
    book.said_at = moment("2026-04-09 12:00")
    wrote = jot(book, [101], "the seed smells musty")  # it was planned by then
    with pytest.raises(Refused, match=rf"Tray 102 was sown 08:00; a jot {said}\.$"):
        jot(book, [102], "of no tray")
    with pytest.raises(Refused, match=rf"Tray 101 was planned .*; the jot {said}"):
        replace_entry(book, wrote.act_id, "wrong day", Changes(at=moment("2026-04-08 08:00")))


def test_page_and_search_of_a_number_have_all_its_lives(two_lives: Book) -> None:
    sown(two_lives, 1, numbers=(1,))
    jot(two_lives, [1], "the third")
    assert [line.note for line in search(two_lives, "the", tray=1)] == [
        "the first", "the second", "the third",
    ]  # fmt: skip
    only = parse_filter("1@2026-04-02", two_lives.now(), two_lives.zone)
    assert only.words == "tray 1@2026-04-02"
    assert [line.note for line in search(two_lives, "the", tray=only.tray)] == ["the first"]
    day = page(two_lives, date(2026, 4, 12), tray=1)
    assert [line.kind for line in day] == ["sow", "jot", "discard"]
    opened = tray_page(two_lives, day[0].names[0])
    assert opened.tray.status == "discarded", (
        "an entry leads to its own tray, whoever has the number now"
    )


def test_an_entry_is_put_right_on_its_own_life(two_lives: Book) -> None:
    """A corrected late entry stays with its tray; another life is named by its day."""
    sown(two_lives, 1, numbers=(1,))
    late = jot(two_lives, parse_numbers("1@2026-04-05"), "late")
    replace_entry(two_lives, late.act_id, "spelling", Changes(note="late, right", numbers=(1,)))
    assert tray_page(two_lives, *parse_numbers("1@2026-04-01")).past[-1].note == "late, right"
