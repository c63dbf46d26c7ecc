"""Mould that was seen stays in sight until a look finds none, or the tray is gone."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.striking import undo
from logbook.actions.trays.till import till
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.numbers import parse_numbers
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.room import moment


def mouldy_of_the_round(book: Book) -> set[tuple[int, ...]]:
    return {line.mouldy for line in the_round(book).due}


def drawn_mouldy(book: Book) -> set[int]:
    shelves = (shelf for rack in racks(book).racks for shelf in rack.shelves)
    return {tray.number for shelf in shelves for tray in shelf.trays if tray.mould_seen}


@pytest.mark.parametrize("mould", ["spot", "spread"])
def test_mould_stays_in_sight_until_it_is_gone(book: Book, mould: str) -> None:
    # given
    sow_at(book, "2026-04-01 08:00", 3)
    # when
    look(book, [102], Look(mould=mould, mould_where="front edge"))
    stand_at(book, "2026-04-02 08:00")
    # then: round, racks, tray and weigh-in say it
    assert mouldy_of_the_round(book) == {(102,)}
    assert drawn_mouldy(book) == {102}
    assert tray_page(book, 102).tray.state.mould_at is not None
    assert till(book).trays[102].mould.startswith("Mould was seen on tray 102, Wed 1 Apr.")
    assert till(book).trays[101].mould == ""
    # when: another look says nothing of mould, and one finds none
    look(book, [102], Look(height_mm=30))
    assert drawn_mouldy(book) == {102}
    look(book, [102], Look(mould="none"))
    # then
    assert mouldy_of_the_round(book) == {()}
    assert drawn_mouldy(book) == set()
    # when: that look is taken back
    undo(book)
    # then
    assert drawn_mouldy(book) == {102}


@pytest.mark.parametrize("name", ["b1", "102@2026-04-01"])
def test_mould_is_marked_on_trays_that_are_named_by_batch_or_day(book: Book, name: str) -> None:
    sow_at(book, "2026-04-01 08:00", 1, numbers=(102,))
    assert look(book, parse_numbers(name), Look(mould="spot")).mouldy == (102,)
    assert drawn_mouldy(book) == {102}
    look(book, [102], Look(mould="none"))
    sow_at(book, "2026-04-02 08:00", 1, numbers=(103,))
    look(book, [102, 103], Look(mould="spot"), mouldy=parse_numbers(name))
    assert drawn_mouldy(book) == {102}


def test_mould_of_a_tray_that_is_cut_by_now_asks_for_no_discard(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-09 08:00")
    weigh(book, [101], 280)
    assert look(book, [101], Look(mould="spot"), at=moment("2026-04-08 08:00")).mouldy == ()
    assert tray_page(book, 101).past[1].words == "look: a spot of mould"


def test_a_look_at_several_trays_marks_only_those_with_mould(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 4)
    seen = Look(emerged_percent=90, mould="spot", mould_where="edge")
    with pytest.raises(Refused, match="Mould on which of 101–103"):
        look(book, [101, 102, 103], seen)
    with pytest.raises(Refused, match="isn't on 104"):
        look(book, [101, 102, 103], seen, mouldy=[104])
    with pytest.raises(Refused, match="Which mould"):
        look(book, [101], Look(emerged_percent=90), mouldy=[101])
    done = look(book, [101, 102, 103], seen, mouldy=[102])
    assert done.mouldy == (102,)
    assert done.words.endswith("; mould on 102 only")
    assert drawn_mouldy(book) == {102}
    # all were looked at; one act, which undo takes back whole
    assert [tray_page(book, each).past[-1].words for each in (101, 102)] == [
        "look: 90 % emerged", "look: 90 % emerged, a spot of mould (edge)",
    ]  # fmt: skip
    undo(book)
    assert {len(tray_page(book, each).tray.state.met) for each in (101, 102, 103)} == {0}
    assert look(book, [101, 102], seen, mouldy=[101, 102]).mouldy == (101, 102)


@pytest.mark.parametrize("words", ["mould", "MOULD spread", "front edge", "wilting", "deep red"])
def test_a_search_finds_what_a_look_saw(book: Book, words: str) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    seen = Look(mould="spread", mould_where="front edge", wilting=True, stem_colour="deep red")
    look(book, [101], seen)
    look(book, [102], Look(mould="none", wilting=False))
    assert [line.trays for line in search(book, words)] == [(101,)]


@pytest.mark.parametrize("words", ["écke", "ÄRGER", "weiß", "WEISS", "ECKE LINKS", "spot of mould"])
def test_a_search_finds_what_a_look_saw_in_other_letters_than_ascii(book: Book, words: str) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    seen = Look(mould="spot", mould_where="ÉCKE links", stem_colour="WEIß ÄRGER, ecke links")
    look(book, [101], seen)
    look(book, [102], Look(stem_colour="grün"))
    assert [line.trays for line in search(book, words)] == [(101,)]
