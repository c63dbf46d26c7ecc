"""Past harvests from a spreadsheet: read as people write them, all of them or none."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.crops.templates import show_template
from logbook.actions.reading import true_summaries
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.harvests import Harvest, check_harvests, odd_harvests, take_harvests
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.exchange.harvest_file import HarvestFile, Order, read_harvests
from logbook.text import HARMFUL, Refused
from logbook.ways import Way

HEAD = "crop,sown,cut,trays,grams\n"
RADISH = Harvest(2, "Radish", date(2026, 3, 2), date(2026, 3, 10), 4, 1130.5)


def read(tmp_path: Path, text: str | bytes, days: Order | None = None) -> HarvestFile:
    path = tmp_path / "harvests.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return read_harvests(path, days)


@pytest.mark.parametrize(
    "text",
    [
        "crop,sown,cut,trays,grams\nRadish,2026-03-02,2026-03-10,4,1130.5\n",
        "\ufeffCROP;Sown;Cut;Trays;Grams\r\nRadish;02.03.2026;10.03.2026;4;1130,5\r\n",
        "Grams\tTrays\tCut\tSown\tCrop\n1130.5\t4\t2026-03-10\t2026-03-02\t Radish \n",
        'crop,sown,cut,trays,grams\nRadish,02.03.2026,10.03.2026,4.0,"1130,5"\n',
        "sep=;\ncrop;sown;cut;trays;grams\n;;;;\nRadish;2026/3/2;2026/3/10 00:00:00;4;1130,5 g\n",
        "crop,sown,cut,trays,grams\rRadish,2026-03-02,2026-03-10,4,1.1305 kg\r",
        "crop;sown;cut;trays;grams\nRadish;02/03/2026;10/03/2026;4;1 130,5\nKale;;18/03/2026;1;\n",
    ],
)
def test_files_as_people_save_them_are_read(tmp_path: Path, text: str) -> None:
    found = read(tmp_path, text)
    harvest = found.harvests[0]
    assert (harvest.crop, harvest.sown, harvest.cut) == (RADISH.crop, RADISH.sown, RADISH.cut)
    assert harvest.trays == 4
    assert harvest.grams == pytest.approx(1130.5)


def test_a_file_in_utf_16_is_read(tmp_path: Path) -> None:
    text = "crop\tsown\tcut\ttrays\tgrams\nRadish\t2026-03-02\t2026-03-10\t4\t1130.5\n"
    assert read(tmp_path, text.encode("utf-16")).harvests == (RADISH,)


def test_days_that_can_be_read_in_two_ways_are_asked_for(tmp_path: Path) -> None:
    text = HEAD + "radish,04/03/2026,12/03/2026,4,900\n"
    with pytest.raises(Refused, match=f"can be read in two ways: add {Way.DAYS.of('dmy')}"):
        read(tmp_path, text)
    assert read(tmp_path, text, "dmy").harvests[0].sown == date(2026, 3, 4)
    assert read(tmp_path, text, "mdy").harvests[0].sown == date(2026, 4, 3)


def test_one_day_that_is_plain_settles_the_file(tmp_path: Path) -> None:
    text = HEAD + "radish,04/03/2026,12/03/2026,4,900\nkale,04/03/2026,15/03/2026,4,900\n"
    assert read(tmp_path, text).harvests[0].sown == date(2026, 3, 4)
    with pytest.raises(Refused, match="write all days in one way"):
        read(tmp_path, text + "kale,03/25/2026,04/05/2026,4,900\n")


def test_each_bad_line_is_named_with_its_reason(book: Book, tmp_path: Path) -> None:
    found = read(
        tmp_path,
        HEAD
        + "radish,2026-03-02,2026-03-10,4,1130\n"  # line 2: as it should be
        + "radish,2026-02-30,2026-03-10,4,1130\n"
        + "radish,2026-03-02,10 March,4,1130\n"
        + "radish,2026-03-02,2026-03-10,four,1130\n"
        + "radish,2026-03-02,2026-03-10,4,nan\n"
        + "radish,2026-03-02,2026-03-10,4,1,130\n"
        + '"rad\nish",2026-03-02,2026-03-10,4\n'
        + ",2026-03-02,2026-03-10,4,1130\n"
        + "radish,02.03.26,2026-03-10,4,1130\n"
        + "rad1sh,2026-03-02,2026-03-10,4,1130\n"
        + "radish,2026-03-10,2026-03-02,4,1130\n"
        + "radish,2026-04-10,2026-04-20,4,1130\n"
        + "radish,2026-03-02,2026-03-10,0,1130\n"
        + "radish,2026-03-02,2026-03-10,4,-5\n"
        + "radish,2024-03-02,2026-03-10,4,100\n",
    )
    faults = {fault.line: fault.words for fault in found.faults}
    faults |= {fault.line: fault.words for fault in check_harvests(book, found.harvests)}
    words = {
        3: "doesn't exist", 4: "isn't a date", 5: "not a whole number", 6: "is not a number",
        7: "6 cells under 5 columns", 8: "is missing", 10: "crop is empty", 11: "isn't a date",
        12: 'no crop template "rad1sh". Did you mean "radish"?', 13: "not after it was sown",
        14: "still to come", 15: "from 1 to 500", 16: "cut weight per tray must be", 17: "more than a year",
    }  # fmt: skip
    assert set(faults) == set(words)
    for line, part in words.items():
        assert part in faults[line]
        assert faults[line].endswith((".", "?"))


def test_past_harvests_become_batches_trays_and_weights(book: Book) -> None:
    # given trays in use and harvests of before
    kale = Harvest(3, "kale", date(2025, 1, 2), date(2025, 1, 12), 1, 180.0, "L7", "first ever")
    before = show_template(book, "radish").expected
    # when they are taken in
    taken = take_harvests(book, [RADISH, kale], "harvests.csv")
    # then they are there, by who took them in, and the room's expectation learns from them
    assert (taken.harvests, taken.trays, taken.grams) == (2, 5, 1310.5)
    with book.reading() as reading:
        batch = reading.value("SELECT max(id) FROM batch")
        ids = [row[0] for row in reading.rows("SELECT id FROM tray")]
        assert all(each.kept == each.true for each in true_summaries(reading, ids))
    radish = batch_page(book, str(batch - 1))
    assert (radish.cut_grams, radish.cut_trays, tuple(each.status for each in radish.trays)) == (
        1130.5,
        4,
        ("cut",) * 4,
    )
    assert batch_page(book, str(batch)).lot == "L7"
    (cut,) = page(book, date(2025, 1, 12))
    assert (cut.note, cut.by) == ("first ever", "AB")
    after = show_template(book, "radish").expected
    assert before is not None
    assert after is not None
    assert after.trays == before.trays + 4
    # and the next sowing's numbers go on as if nothing had happened
    assert sow(book, SowDraft("radish", trays=1)).plan.numbers == (106,)
    # and a single undo each takes the sowing and all of the harvests back
    undo(book)
    undo(book)
    assert show_template(book, "radish").expected == before


def test_a_weight_that_is_hard_to_believe_is_named_and_taken(book: Book) -> None:
    # given: the usual radish tray, and one with grams of ten trays
    harvests = [RADISH, replace(RADISH, line=3, grams=20_000.0), replace(RADISH, line=4, grams=0)]
    # when
    odd = odd_harvests(book, harvests)
    # then
    assert [each.line for each in odd] == [3, 4]
    assert "times the expected" in odd[0].words
    assert check_harvests(book, harvests) == []


@pytest.mark.parametrize(
    ("trays", "grams"), [(4, 1130.5), (2, 100.35), (3, 100.25), (1, 100.35), (417, 1389.32)]
)
def test_the_same_file_is_not_taken_in_twice(book: Book, trays: int, grams: float) -> None:
    harvest = replace(RADISH, trays=trays, grams=grams)
    take_harvests(book, [harvest], "harvests.csv")
    (fault,) = check_harvests(book, [harvest])
    assert "in the book already, as batch" in fault.words
    undo(book)
    assert check_harvests(book, [harvest]) == []


def test_unknown_crops_get_a_template_when_asked(book: Book) -> None:
    lovage = [
        Harvest(2, "Lovage", date(2026, 1, 1), date(2026, 1, 15), 2, 200.0),
        Harvest(3, "lovage", date(2026, 2, 1), date(2026, 2, 19), 1, 130.0),
    ]
    with pytest.raises(Refused, match="Line 2: there is no crop template"):
        take_harvests(book, lovage, "harvests.csv")
    taken = take_harvests(book, lovage, "harvests.csv", make_templates=True)
    assert taken.made == ("Lovage",)
    template = show_template(book, "lovage").template
    assert (template.cut.from_seconds, template.cut.by_seconds) == (14 * 86_400, 18 * 86_400)
    assert template.expected_grams == 115.0
    assert template.guess


def test_one_bad_harvest_leaves_nothing_behind(book: Book) -> None:
    before = book.file.path.read_bytes()
    wrong = Harvest(3, "radish", date(2026, 3, 2), date(2026, 3, 1), 4, 900.0)
    with pytest.raises(Refused, match="Line 3"):
        take_harvests(book, [RADISH, wrong], "harvests.csv")
    assert book.file.path.read_bytes() == before


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "must name the columns"),
        (b"crop;sown\n", "must name the columns crop, sown, cut, trays and grams"),
        (b"\xff\xfe\x00", "UTF-8 text"),
        (b"crop,sown,cut,trays,grams,Crop\n", 'names "crop" twice'),
        ("crop,sown,cut,trays,grams\nrad\u00e4s".encode("latin-1"), "UTF-8 text"),
        (b'crop,sown,cut,trays,grams\n"' + b"x" * 200_000, "it isn't CSV"),
    ],
)
def test_a_file_that_is_no_such_table_is_refused(tmp_path: Path, data: bytes, words: str) -> None:
    with pytest.raises(Refused, match=words):
        read(tmp_path, data)


CELL = st.text(max_size=12) | st.sampled_from(
    ["radish", "2026-03-02", "31.12.2026", "04/05/2026", "1e9", "1,5", '"', "\n", "\x1b[2J", "=1+1"]
)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    rows=st.lists(st.lists(CELL, min_size=3, max_size=7), max_size=5),
    mark=st.sampled_from([",", ";", "\t"]),
)
def test_any_text_in_a_file_is_read_or_refused_with_a_sentence(
    tmp_path: Path, rows: list[list[str]], mark: str
) -> None:
    text = "\n".join([mark.join(("crop", "sown", "cut", "trays", "grams")), *map(mark.join, rows)])
    said = []
    try:
        found = read(tmp_path, text.encode("utf-8", "surrogatepass"))
        said = [fault.words for fault in found.faults]
    except Refused as refused:
        said = [str(refused)]
    assert not any(HARMFUL.search(words) or "\n" in words for words in said)


def test_many_lines_are_taken_in_within_a_breath(book: Book) -> None:
    harvests = [
        Harvest(line, "radish", date(2025, 1, 1 + line % 28), date(2025, 2, 10), 4, 1000.0 + line)
        for line in range(2, 202)
    ]
    assert take_harvests(book, harvests, "harvests.csv").trays == 800
    with sqlite3.connect(book.file.path) as connection:
        (numbers,) = connection.execute(
            "SELECT count(DISTINCT number) FROM tray WHERE number > 90000"
        ).fetchone()
    connection.close()
    assert numbers == 800
