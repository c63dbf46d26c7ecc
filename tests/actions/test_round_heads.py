"""What the heads of shelves say on the round, and which arms its trial trays are of."""

from datetime import timedelta
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.room.air import write_air
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.trays.round import round_view
from logbook.actions.trays.striking import undo
from logbook.actions.trials.joining import leave_out
from logbook.growing.room.light import Grid, Spot
from tests.actions.room_book import OTHER, SHELF, room_book, stand_at
from tests.trial_room import make_trial, sow_all


def test_a_shelf_has_the_last_air_around_it_and_its_light(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    write_air(book, 21.4, 61, "Rack 1")
    write_air(book, 19.0, 70.4, SHELF)
    for ppfd in (150.0, 176.2):
        write_survey(book, SurveyDraft(SHELF, Grid(1, 1), (Spot(1, 1, ppfd),)))
    heads = round_view(book).heads
    assert heads[SHELF] == ("lit 06–22", "19 °C 70 %", "PPFD 176")
    assert heads[OTHER] == ("lit 06–22", "21.4 °C 61 %")
    undo(book)
    assert round_view(book).heads[SHELF][-1] == "PPFD 150"
    # after a day the air is not that of now
    stand_at(book, book.now() + timedelta(hours=24, seconds=1))
    assert round_view(book).heads[OTHER] == ("lit 06–22",)


def test_trial_trays_have_the_name_of_their_arm_until_they_are_left_out(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    view = round_view(book)
    assert sorted(view.arms.values()) == ["thick"] * 3 + ["thin"] * 3
    leave_out(book, "thick or thin", [sown.spots[0][0]], "dropped")
    assert len(round_view(book).arms) == 5
