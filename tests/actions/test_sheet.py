"""The round on paper, and what comes back on it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from random import Random

import pytest

from logbook.actions.book import Book
from logbook.actions.care.checking import wrong_summaries
from logbook.actions.seed.writing import buy_seed
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page, search
from logbook.actions.trays.sheet import Sheet, enter_sheet, print_sheet
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.tray_page import tray_page
from logbook.growing.numbers import numbers_words
from logbook.growing.seed.bags import Bag
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.room import moment, wall_words


def code(sheet: Sheet, chore: str, on: date | None = None) -> str:
    """The code of the first line of a chore (on a day)."""
    return next(each.code for each in sheet.lines if each.chore == chore and on in (None, each.day))


@pytest.fixture
def week(book: Book) -> Sheet:
    """Four trays in the light on the 8th, and the sheet of four days that was printed then at 7."""
    sow_at(book, "2026-04-01 08:00", 4)
    stand_at(book, "2026-04-05 08:00")
    did(book, "weight_off", range(101, 105))
    stand_at(book, "2026-04-07 08:00")
    did(book, "light_on", range(101, 105))
    stand_at(book, "2026-04-08 07:00")
    return print_sheet(book, 4)


def test_a_line_that_comes_back_is_written_with_its_time_trays_and_initials(
    book: Book, week: Sheet
) -> None:
    water = code(week, "water", date(2026, 4, 8))
    stand_at(book, "2026-04-09 08:00")
    read = enter_sheet(book, [f"{water} 7:30 101-104 not 103 300ml edge dry"], "rb", write=True)
    assert read.written
    assert read.by == "rb"
    (entry,) = page(book, date(2026, 4, 8))[-1:]
    assert (entry.by, entry.kind, entry.trays) == ("rb", "water", (101, 102, 104))
    assert wall_words(entry.at).endswith("07:30")
    assert "300 ml" in entry.words
    assert "edge dry" in entry.note


def test_all_lines_are_one_act_that_undo_takes_back(book: Book, week: Sheet) -> None:
    on = date(2026, 4, 8)
    stand_at(book, "2026-04-08 19:00")
    before = len(page(book, on))
    read = enter_sheet(
        book,
        [
            f"{code(week, 'water', on)}",
            "look 7:40 101-104",
            "jot 8:00 103 odd leaf",
            "jot 8:05 104 odder",
        ],
        write=True,
    )
    assert [each.refusal for each in read.lines] == [""] * 4
    assert [entry.note for entry in search(book, "odd")] == ["odd leaf", "odder"]
    assert len(page(book, on)) == before + 4
    undo(book)
    standing = [each for each in page(book, on) if not each.struck and each.kind != "strike"]
    assert len(standing) == before


def test_one_wrong_line_leaves_all_of_them_unwritten(book: Book, week: Sheet) -> None:
    on = date(2026, 4, 8)
    stand_at(book, "2026-04-08 19:00")
    before = page(book, on)
    lines = [f"{code(week, 'water', on)} 7:30", f"{code(week, 'cut')} 7:30 109", "QQ 7:30"]
    read = enter_sheet(book, lines, write=True)
    assert not read.written
    assert [bool(each.refusal) for each in read.lines] == [False, True, True]
    assert "is for 101–104, not for 109" in read.lines[1].refusal
    assert page(book, on) == before


def test_seeing_it_first_writes_nothing(book: Book, week: Sheet) -> None:
    stand_at(book, "2026-04-08 19:00")
    before = page(book, date(2026, 4, 8))
    read = enter_sheet(book, [f"{code(week, 'water', date(2026, 4, 8))} 7:30"])
    assert read.lines[0].words.startswith("water: 101–104")
    assert not read.written
    assert page(book, date(2026, 4, 8)) == before


def test_a_cut_takes_weights_and_what_is_late_on_paper_comes_in_the_papers_order(
    book: Book, week: Sheet
) -> None:
    cut = next(line for line in week.lines if line.chore == "cut")
    stand_at(book, f"{cut.day} 18:00")
    read = enter_sheet(book, [f"{cut.code} 17:30 101=240 102=255"], write=True)
    assert read.written, read.lines
    assert tray_page(book, 101).tray.state.grams == 240


def test_a_code_means_its_trays_though_their_number_is_on_another_now(
    book: Book, week: Sheet
) -> None:
    water = code(week, "water", date(2026, 4, 8))
    stand_at(book, "2026-04-08 12:00")
    discard(book, (104,), "mould")
    stand_at(book, "2026-04-08 13:00")
    sow(book, SowDraft("field", numbers=(104,), soaked="dry"))
    stand_at(book, "2026-04-08 19:00")
    read = enter_sheet(book, [f"{water} 7:30"], write=True)
    assert read.written
    newest = tray_page(book, 104)
    assert newest.tray.state.last_water is None


def test_a_code_of_an_older_sheet_is_taken_with_its_day_alone(book: Book, week: Sheet) -> None:
    water = code(week, "water", date(2026, 4, 8))
    stand_at(book, "2026-04-09 07:00")
    print_sheet(book)
    (line,) = enter_sheet(book, [f"{water} 7:30"]).lines
    assert "printed Wed 8 Apr" in line.refusal
    read = enter_sheet(book, [f"{water} 7:30"], printed=date(2026, 4, 8), write=True)
    assert read.written
    with pytest.raises(Refused, match="No sheet was printed"):
        enter_sheet(book, ["BC 7:30"], printed=date(2026, 4, 1))


def test_a_sowing_says_its_soak(new_book: Callable[[], Book]) -> None:
    book = new_book()
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("pea", trays=2, at=moment("2026-04-02 08:00"), plan=True))
    sheet = print_sheet(book, 3)
    line = code(sheet, "sow")
    stand_at(book, "2026-04-02 19:00")
    (asked,) = enter_sheet(book, [f"{line} 8:00"]).lines
    assert "When did the soak begin?" in asked.refusal
    assert enter_sheet(book, [f"{line} 8:00 soaked 20:00"], write=True).written
    state = tray_page(book, 101).tray.state
    assert state.soaked_at is not None
    assert wall_words(state.soaked_at).endswith("20:00")


@pytest.mark.parametrize("behind", ["lot RA 13", "RA 13", "lot ra13"])
def test_a_sowing_says_its_bag(new_book: Callable[[], Book], behind: str) -> None:
    """With "lot" or by its name alone, where the book knows it; other words are a note."""
    book = new_book()
    stand_at(book, "2026-04-01 08:00")
    for lot in ("RA 12", "RA 13"):
        buy_seed(book, Bag(lot, "field test", 500, date(2026, 4, 1)))
    sow(book, SowDraft("field test", trays=2, at=moment("2026-04-02 08:00"), soaked="dry"))
    sheet = print_sheet(book, 3)
    assert next(each.about for each in sheet.lines if each.chore == "sow").endswith("lot ______")
    stand_at(book, "2026-04-02 19:00")
    line = code(sheet, "sow")
    assert enter_sheet(book, [f"{line} 8:00 dry {behind}"], write=True).written
    (said,) = page(book, kind="sow")
    assert "from lot RA 13" in said.words


@pytest.mark.parametrize(
    ("lines", "words"),
    [([], "Give a line"), (["", " "], "Give a line"), (["water"], "Which trays, and when"), (["BC 25:00 3"], "isn't a time")],
)  # fmt: skip
@pytest.mark.usefixtures("week")
def test_what_says_nothing_is_refused(book: Book, lines: list[str], words: str) -> None:
    try:
        refusal = enter_sheet(book, lines, write=True).lines[0].refusal
    except Refused as said:
        refusal = str(said)
    assert words in refusal


def test_a_sheet_is_of_days_to_come(book: Book, week: Sheet) -> None:
    assert {each.day for each in week.lines} == {
        date(2026, 4, 8) + timedelta(days=each) for each in range(4)
    }
    assert len({each.code for each in week.lines}) == len(week.lines)
    with pytest.raises(Refused, match="1 to 31 days"):
        print_sheet(book, 0)
    with pytest.raises(Refused, match="is past"):
        print_sheet(book, 1, date(2026, 4, 1))


def test_a_part_cut_and_one_that_grows_again_stay_on_the_rack(book: Book, week: Sheet) -> None:
    cut = code(week, "cut")
    stand_at(book, "2026-04-09 19:00")
    lines = [
        f"{cut} 17:00 101=120 part",
        f"{cut} 17:10 102=250 keep trimmed",
        f"{cut} 17:20 103 part",
    ]
    read = enter_sheet(book, lines, write=True)
    assert [each.words.partition(":")[0] for each in read.lines][:2] == [
        "part cut",
        "cut, grows again",
    ]
    states = {number: tray_page(book, number).tray.state for number in (101, 102, 103, 104)}
    assert all(state.live for state in states.values())
    assert states[101].part_grams == 120
    assert states[102].harvest == 2


def test_a_tray_without_a_weight_is_not_cut_by_the_weights_of_others(
    book: Book, week: Sheet
) -> None:
    cut = code(week, "cut")
    stand_at(book, "2026-04-09 19:00")
    (line,) = enter_sheet(book, [f"{cut} 17:00 101-103 101=240 102=250"]).lines
    assert "give a weight for each" in line.refusal


@pytest.mark.usefixtures("week")
def test_mould_on_paper_is_mould_in_the_book(book: Book) -> None:
    stand_at(book, "2026-04-08 19:00")
    read = enter_sheet(book, ["look 7:40 103 mould spread left edge"], write=True)
    assert "Do not sell" in read.lines[0].notices[0]
    assert tray_page(book, 103).tray.mould_seen
    assert not tray_page(book, 104).tray.mould_seen


def test_an_odd_amount_or_weight_is_asked_about_where_it_is_shown(book: Book, week: Sheet) -> None:
    water, cut = (code(week, chore, date(2026, 4, 9)) for chore in ("water", "cut"))
    stand_at(book, "2026-04-09 19:00")
    did(book, "water", [104], moment("2026-04-09 07:10"), amount_ml=300)
    read = enter_sheet(book, [f"{water} 7:30 101-103 3L", f"{cut} 17:00 104=3"])
    assert "really 3000 ml? The last readings on other trays" in read.lines[0].notices[0]
    assert read.lines[1].notices


@pytest.mark.parametrize("seed", range(4))
def test_paper_writes_what_the_keys_would_have_written(
    new_book: Callable[[], Book], seed: int
) -> None:
    """The same chores of three days, one book by actions at their time, one from its sheet after."""
    draw, pages = Random(seed), []
    keys, sheet = new_book(), new_book()
    for book in (keys, sheet):
        sow_at(book, "2026-04-01 08:00", 7)
    stand_at(sheet, "2026-04-02 06:00")
    lines = print_sheet(sheet, 5).lines
    told = []
    for line in lines:
        some = [number for number in line.numbers if draw.random() < 0.8]
        if line.chore == "cut" or not some:
            continue
        at = f"{line.day} {draw.randint(8, 17):02}:{draw.randint(0, 59):02}"
        told.append((at, line, some))
    for at, line, some in sorted(told, key=lambda each: each[0]):
        stand_at(keys, at)
        left = [number for number in line.numbers if number not in some]
        text = f"{line.code} {at[-5:]}" + (f" not {numbers_words(left, '-')}" if left else "")
        try:
            (look(keys, some, Look()) if line.chore == "look" else did(keys, line.chore, some))
        except Refused:
            continue
        pages.append(text)
    stand_at(sheet, "2026-04-08 08:00")
    assert len(pages) > 2
    assert enter_sheet(sheet, pages, write=True).written
    stand_at(keys, "2026-04-08 08:00")
    for number in range(101, 108):
        assert tray_page(sheet, number).tray.state == tray_page(keys, number).tray.state
    assert not wrong_summaries(sheet)
