"""Striking, replacing and undoing: nothing is erased, and sums use what stands."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.reading import true_summaries
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.lots import recent_lots
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, strike_act, struck_words, undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.trays.looks import Look
from logbook.growing.trays.soaking import SOAK_BY_TEMPLATE
from logbook.store.reads.trays import read_live_trays
from logbook.text import Refused

NOON = datetime(2026, 4, 14, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a new book of one rack."""
    path = tmp_path_factory.mktemp("begun") / "room.book"
    begin_book(path, BeginDraft(zone="UTC", racks=1, shelves=2, slots=6), FixedClock(NOON))
    return path


@pytest.fixture
def book(begun: Path, tmp_path: Path) -> Book:
    """A new book, its clock at noon of 14 April 2026, written by AB."""
    path = tmp_path / "room.book"
    path.write_bytes(begun.read_bytes())
    return open_book(path, FixedClock(NOON), "AB")


def sown(book: Book, days: float = 9, **draft: object) -> None:
    asked = {"template": "sunflower", "trays": 2, "lot": "L1", "grams": 120.0, **draft}
    sow(book, SowDraft(at=NOON - timedelta(days=days), **asked))  # type: ignore[arg-type]


def last(book: Book, kind: str) -> Line:
    with book.reading() as reading:
        newest = reading.value("SELECT max(id) FROM entry WHERE kind = ?", (kind,))
    return next(line for line in everything(book) if line.id == newest)


def everything(book: Book) -> list[Line]:
    days = {NOON.date() - timedelta(days=back) for back in range(30)}
    return sorted((line for day in days for line in page(book, day)), key=lambda line: line.id)


def line(book: Book, entry: int) -> Line:
    return next(each for each in everything(book) if each.id == entry)


def wrong_summaries(book: Book) -> list[int]:
    with book.reading() as reading:
        ids = [row[0] for row in reading.rows("SELECT id FROM tray")]
        return [each.number for each in true_summaries(reading, ids) if each.kept != each.true]


def test_a_wrong_weight_is_replaced_and_both_stay_in_the_record(book: Book) -> None:
    # given a weight that was misread
    sown(book)
    weigh(book, [101], 823.0)
    wrong = last(book, "weigh").id
    # when another person puts the right one in its place
    book.by = "CD"
    done = replace_entry(book, wrong, "misread the scale", Changes(grams=283.0))
    # then both are there with who, and the sums use what stands
    right = last(book, "weigh")
    assert (line(book, wrong).struck, line(book, wrong).by) == (True, "AB")
    assert line(book, wrong).replaced_by == right.id
    assert (right.replaces, right.by, right.struck) == (wrong, "CD", False)
    assert last(book, "strike").note == "misread the scale"
    assert tray_page(book, 101).tray.state.grams == 283.0
    assert done.numbers == (101,)
    assert wrong_summaries(book) == []


def test_a_weight_can_go_to_another_tray_which_gives_the_first_its_life_back(book: Book) -> None:
    sown(book)
    weigh(book, [101], 300.0)
    replace_entry(book, last(book, "weigh").id, "wrong tray", Changes(numbers=(102,)))
    assert tray_page(book, 101).tray.status == "growing"
    assert (tray_page(book, 102).tray.status, tray_page(book, 102).tray.state.grams) == (
        "cut",
        300.0,
    )
    assert wrong_summaries(book) == []


def test_trays_weighed_together_share_the_right_weight(book: Book) -> None:
    sown(book)
    weigh(book, [101, 102], 900.0)
    replace_entry(book, last(book, "weigh").id, "one tray only", Changes(numbers=(101,), grams=450))
    assert tray_page(book, 101).tray.state.grams == 450.0
    assert tray_page(book, 102).tray.status == "growing"


def test_a_weight_can_be_corrected_though_its_number_is_on_another_tray_now(book: Book) -> None:
    # given tray 101 was cut and its number is on a new tray
    sown(book)
    weigh(book, [101], 823.0)
    wrong = last(book, "weigh").id
    sown(book, days=1, trays=1, numbers=(101,))
    # when the weight is corrected, then the old tray stays cut
    replace_entry(book, wrong, "misread", Changes(grams=283.0))
    assert wrong_summaries(book) == []
    # but to strike it would bring a second tray 101 back
    with pytest.raises(Refused, match="101 is on another tray now"):
        strike(book, last(book, "weigh").id, "never cut")


def test_a_wrong_time_is_replaced_and_later_times_follow(book: Book) -> None:
    sown(book, days=5)
    did(book, "weight off", [101], NOON)
    wrong = last(book, "change").id
    earlier = NOON - timedelta(hours=6)
    replace_entry(book, wrong, "was this morning", Changes(at=earlier, note="by lamp"))
    right = last(book, "change")
    assert (right.at, right.note) == (earlier, "by lamp")
    assert tray_page(book, 101).tray.state.stage_since == earlier


def test_a_replacement_keeps_its_place_among_entries_of_one_moment(book: Book) -> None:
    # given two changes written within the same second
    sown(book, days=5)
    did(book, "weight off", [101])
    first = last(book, "change").id
    stage = tray_page(book, 101).tray.stage
    did(book, "to the light", [101])
    lit = tray_page(book, 101).tray.stage
    assert stage != lit
    # when the note of the first is corrected, twice
    replace_entry(book, first, "spelling", Changes(note="off"))
    replace_entry(book, last(book, "change").id, "spelling", Changes(note="off it is"))
    # then the tray is still where the second put it
    assert tray_page(book, 101).tray.stage == lit


@pytest.mark.parametrize(
    ("kind", "back", "words"),
    [
        ("change", 24 * 9, "came into the stage before"),
        ("weigh", 24 * 30, "was sown"),
        ("sow", -1, "still to come"),
        ("sow", 0, "had something done to it"),
    ],
)
def test_a_time_that_cannot_be_is_refused_and_nothing_is_written(
    book: Book, kind: str, back: float, words: str
) -> None:
    sown(book, days=6)
    did(book, "weight off", [101], NOON - timedelta(days=2))
    weigh(book, [101], 300.0)
    before = everything(book)
    with pytest.raises(Refused, match=words):
        replace_entry(book, last(book, kind).id, "?", Changes(at=NOON - timedelta(hours=back)))
    assert everything(book) == before


def test_a_wrong_place_is_replaced(book: Book) -> None:
    sown(book)
    move(book, [101], "Shelf 2")
    replace_entry(book, last(book, "move").id, "other shelf", Changes(place="Shelf 1/5"))
    state = tray_page(book, 101).tray.state
    assert (tray_page(book, 101).tray.place, state.slot) == ("Rack 1/Shelf 1", 5)


def test_a_look_is_replaced_in_what_is_given_and_its_sign_follows(book: Book) -> None:
    sown(book)
    look(book, [101], Look(height_mm=40, sign="seen"))
    assert tray_page(book, 101).tray.state.sign_at is not None
    wrong = last(book, "look").id
    replace_entry(book, wrong, "not yet", Changes(look=Look(sign="seed leaves", mould="spot")))
    assert tray_page(book, 101).tray.state.sign_at is None
    right = last(book, "look")
    assert "4 cm high" in right.words
    assert "a spot of mould" in right.words


def test_water_notes_and_reasons_are_replaced(book: Book) -> None:
    sown(book)
    did(book, "water", [101, 102], amount_ml=3000)
    replace_entry(book, last(book, "water").id, "a nought", Changes(amount_ml=300, numbers=(101,)))
    assert "300 ml" in last(book, "water").words
    assert last(book, "water").trays == (101,)
    jot(book, [101], "smels")
    replace_entry(book, last(book, "jot").id, "spelling", Changes(note="smells"))
    assert last(book, "jot").note == "smells"
    discard(book, [101], "mould")
    replace_entry(book, last(book, "discard").id, "other tray", Changes(numbers=(102,)))
    assert tray_page(book, 101).tray.status == "growing"
    assert tray_page(book, 102).tray.status == "discarded"


def test_a_wrong_sowing_is_corrected_and_the_wrong_batch_stays_in_the_record(book: Book) -> None:
    # given a sowing with the wrong lot, seed and crop, and work done since
    sown(book, days=5)
    did(book, "weight off", [101], NOON - timedelta(days=1))
    wrong = last(book, "sow").id
    # when it is corrected
    replace_entry(book, wrong, "wrong bag", Changes(lot="L2", grams=110.0, template="radish"))
    # then the trays, with what was done to them, are of the right batch
    right = batch_page(book, "2")
    assert (right.lot, right.seed_grams, right.template_name) == ("L2", 110.0, "radish")
    assert tuple(tray.number for tray in right.trays) == (101, 102)
    assert any(each.kind == "change" for each in right.past)
    assert recent_lots(book) == ["L2"]
    assert wrong_summaries(book) == []
    # and the wrong one is still in the file, by the struck entry
    with book.reading() as reading:
        row = reading.row(
            "SELECT l.lot, b.grams_per_tray FROM entry e JOIN batch b ON b.id = e.batch_id "
            "JOIN batch_lot l ON l.batch_id = b.id WHERE e.id = ?",
            (wrong,),
        )
    assert row == ("L1", 120.0)
    with pytest.raises(Refused, match="it is batch 2 now"):
        batch_page(book, "1")
    # and undoing brings it back
    undo(book)
    assert batch_page(book, "1").lot == "L1"
    assert wrong_summaries(book) == []


def test_the_soak_reckoned_from_a_sowing_follows_its_time(book: Book) -> None:
    sown(book, days=5, soaked=NOON - timedelta(days=5, hours=8))
    with book.file.writing() as older:  # which wrote it of itself
        older.connection.execute(
            "UPDATE entry SET note = ? WHERE kind = 'soak'", (SOAK_BY_TEMPLATE,)
        )
    soak = last(book, "soak")
    wrong = last(book, "sow")
    at = wrong.at - timedelta(hours=3)
    replace_entry(book, wrong.id, "earlier", Changes(at=at))
    by_template = timedelta(seconds=tray_page(book, 101).tray.template.soak_seconds)
    assert last(book, "soak").at == at - by_template
    assert tray_page(book, 101).tray.state.sown_at == at
    undo(book)
    assert tray_page(book, 101).tray.state.soaked_at == soak.at
    assert tray_page(book, 101).tray.state.sown_at == wrong.at


def test_a_plan_is_corrected(book: Book) -> None:
    sow(book, SowDraft("radish", trays=2, at=NOON + timedelta(days=2), lot="L1"))
    later = NOON + timedelta(days=3)
    replace_entry(book, last(book, "plan").id, "a day later", Changes(at=later, lot="L3"))
    found = batch_page(book, "2")
    statuses = [each.status for each in found.trays]
    assert (found.planned_for, found.lot, statuses) == (later, "L3", ["planned"] * 2)


def test_undo_walks_back_through_replacements_and_strikes(book: Book) -> None:
    # given a weight, its replacement, and a strike of that
    sown(book)
    weigh(book, [101], 823.0)
    replace_entry(book, last(book, "weigh").id, "misread", Changes(grams=283.0))
    strike(book, last(book, "weigh").id, "not cut at all")
    assert tray_page(book, 101).tray.status == "growing"
    # when each act is undone in turn, then each view comes back
    undo(book)
    assert tray_page(book, 101).tray.state.grams == 283.0
    undo(book)
    assert tray_page(book, 101).tray.state.grams == 823.0
    undo(book)
    assert tray_page(book, 101).tray.status == "growing"
    undo(book)
    with pytest.raises(Refused, match="nothing of AB's to undo"):
        undo(book)
    assert wrong_summaries(book) == []


def test_an_act_that_another_has_corrected_since_is_not_taken_back(book: Book) -> None:
    # given AB corrected a weight and CD corrected it again
    sown(book)
    weigh(book, [101], 823.0)
    wrong = last(book, "weigh").id
    mine = replace_entry(book, wrong, "misread", Changes(grams=283.0)).act_id
    book.by = "CD"
    replace_entry(book, last(book, "weigh").id, "weighed again", Changes(grams=281.0))
    # when AB's act is taken back, then it is refused and no weight stands twice
    with pytest.raises(Refused, match="struck out already"):
        strike_act(book, mine, "undone")
    assert tray_page(book, 101).tray.state.grams == 281.0
    # and once CD has undone, AB's stands and can be taken back
    undo(book)
    assert tray_page(book, 101).tray.state.grams == 283.0
    strike_act(book, mine, "undone")
    assert tray_page(book, 101).tray.state.grams == 823.0


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (Changes(), "What is right instead"),
        (Changes(lot="L2"), "has no seed lot to change; it has time, note, trays"),
        (Changes(numbers=(999,)), "is no tray 999"),
        (Changes(grams=float("nan")), "0 to 100,000 g"),
        (Changes(grams=-1), "0 to 100,000 g"),
    ],
)
def test_a_replacement_that_cannot_be_is_refused(book: Book, changes: Changes, words: str) -> None:
    sown(book)
    weigh(book, [101], 300.0)
    before = everything(book)
    with pytest.raises(Refused, match=words):
        replace_entry(book, last(book, "weigh").id, "wrong", changes)
    assert everything(book) == before


@pytest.mark.parametrize("entry", [0, -4, 99, 2**80])
def test_an_entry_that_is_not_there_is_refused(book: Book, entry: int) -> None:
    with pytest.raises(Refused, match="There is no entry"):
        strike(book, entry, "why not")


def test_a_strike_and_a_struck_entry_are_not_struck_again(book: Book) -> None:
    sown(book)
    jot(book, [101], "one")
    first = last(book, "jot").id
    replace_entry(book, first, "spelling", Changes(note="two"))
    with pytest.raises(Refused, match=f"entry {last(book, 'jot').id} replaces it"):
        strike(book, first, "again")
    with pytest.raises(Refused, match="strikes another one out"):
        strike(book, last(book, "strike").id, "again")


def test_no_row_of_an_entry_is_ever_changed_or_gone(book: Book) -> None:
    """Every table that an entry writes to only grows, whatever is struck, replaced or undone."""

    def rows() -> set[tuple[object, ...]]:
        with book.reading() as reading:
            return {
                (table, *row)
                for table in (
                    "entry",
                    "entry_tray",
                    "tray_place",
                    "weight",
                    "watering",
                    "look",
                    "batch",
                )
                for row in reading.rows(f"SELECT * FROM {table}")
            }

    sown(book)
    weigh(book, [101], 823.0)
    look(book, [102], Look(height_mm=40))
    kept = rows()
    acts: list[Callable[[], object]] = [
        lambda: replace_entry(book, last(book, "weigh").id, "x", Changes(grams=283.0)),
        lambda: replace_entry(book, last(book, "sow").id, "x", Changes(lot="L9")),
        lambda: strike(book, last(book, "look").id, "x"),
        lambda: undo(book),
        lambda: undo(book),
    ]
    for act in acts:
        act()
        now = rows()
        assert kept < now
        kept = now
    with book.reading() as reading:
        assert [tray.number for tray in read_live_trays(reading)] == [102]


def test_an_undo_says_which_entries_went_and_how_old_they_are(book: Book) -> None:
    sown(book, soaked=NOON - timedelta(days=9, hours=8))
    assert isinstance(book.clock, FixedClock)
    jot(book, [101], "one")
    entry = last(book, "jot").id
    book.clock.at = NOON + timedelta(hours=3)
    assert struck_words(book, undo(book).act_id) == f"Entry {entry}, written 12:00."
    book.clock.at = NOON + timedelta(days=40)
    soak, sowing = last(book, "soak").id, last(book, "sow").id
    said = struck_words(book, undo(book).act_id)
    assert said == f"Entries {min(soak, sowing)} and {max(soak, sowing)}, written Tue 14 Apr 12:00."


def test_a_cut_tray_needs_no_room_where_it_is_said_to_have_stood(book: Book) -> None:
    # given a full shelf, and two trays elsewhere, one of them cut
    sown(book, trays=6, place="Shelf 2")
    sown(book, trays=1, place="Shelf 1")
    sown(book, trays=1, place="Shelf 1")
    grown, cut = batch_page(book, "2").trays[0].number, batch_page(book, "3").trays[0].number
    with pytest.raises(Refused, match="Shelf 2"):
        replace_entry(book, last(book, "sow").id, "wrong", Changes(place="Shelf 2"))
    did(book, "cut", [cut])
    replace_entry(book, last(book, "sow").id, "wrong", Changes(place="Shelf 2"))
    assert tray_page(book, cut).tray.state.slot is None
    assert tray_page(book, grown).tray.place == "Rack 1/Shelf 1"


def test_who_wrote_last_is_said_where_there_is_nothing_to_undo(book: Book) -> None:
    sow(book, SowDraft("radish", 1))
    book.by = "CD"
    with pytest.raises(Refused, match=r"nothing of CD's to undo\. What was written last is AB's"):
        undo(book)
