"""The sample book: lively at any hour, alike each time, and as sound as one written by hand."""

from __future__ import annotations

import shutil
import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from statistics import mean, stdev
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.orders.customers import list_customers
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.listing import list_orders
from logbook.actions.reading import Reading
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import due
from logbook.actions.trays.page import page, search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.striking import undo
from logbook.clock import FixedClock
from logbook.growing.days import day_bounds
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.orders import read_packed
from logbook.store.reads.trays import read_trays
from logbook.store.rows import moment
from logbook.store.search import wrong_words
from logbook.text import Refused, clean_note
from sample_db import build
from sample_db.crops import TRUTHS
from sample_db.mishaps import MISHAPS, ROOM_NOTES
from tests.conftest import SampleMaker

LISBON = ZoneInfo("Europe/Lisbon")
OF_THE_ROOM = (
    "jot", "lamps", "hours", "tariff", "circuit", "light", "air", "measure", "clean", "check", "upkeep", "seed", "seed_test", "seed_weight", "settings",
    "trial", "weights", "tasting", "taste", "decide", "customer", "mix", "order", "pack", "pack_lot", "lot_out",
)  # fmt: skip
NOWS = (
    "2026-04-14T07:45",
    "2026-03-29T03:00",  # clocks go forward at 01:00
    "2026-10-25T13:00",  # clocks go back at 02:00
    "2027-01-01T23:30",
)


def _at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=LISBON)


@pytest.fixture(scope="module")
def books(sample_book: SampleMaker, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Book]:
    folder = tmp_path_factory.mktemp("sample")
    return {
        now: sample_book(folder / f"{place}.book", _at(now), "Europe/Lisbon")
        for place, now in enumerate(NOWS)
    }


@pytest.fixture(params=NOWS)
def book(request: pytest.FixtureRequest, books: dict[str, Book]) -> Book:
    return books[request.param]


@pytest.fixture
def rows(book: Book) -> Iterator[Reading]:
    with book.reading() as reading:
        yield reading


def _every_tray(book: Book) -> list[TrayNow]:
    with book.reading() as reading:
        ids = [row[0] for row in reading.rows("SELECT id FROM tray")]
        return reading.folded(read_trays(reading, ids))


def _live(book: Book) -> list[TrayNow]:
    with book.reading() as reading:
        return reading.live


# A lively day


def test_the_round_is_lively(book: Book) -> None:
    walk = the_round(book)
    assert 5 <= walk.stops <= 9
    assert 10 <= len(walk.due) <= 25
    assert 1 <= walk.late <= 4
    assert len(walk.waiting) >= 3
    chores = {line.chore for line in walk.lines}
    assert chores >= {"soak", "sow", "weight_off", "light_on", "water_look", "look", "cut"}


def test_trays_are_ready_and_one_is_late(book: Book) -> None:
    states = Counter(tray.ready for tray in due(book))
    assert 3 <= states["ready"] <= 8
    assert states["late"] >= 1
    assert any(tray.sign_seen for tray in due(book))
    assert states["soon"] >= 3


def test_some_forty_trays_of_ten_or_more_crops_stand_in_every_stage(book: Book) -> None:
    live = _live(book)
    growing = [tray for tray in live if tray.state.status == "growing"]
    assert 38 <= len(growing) <= 48
    assert len({tray.template.crop for tray in growing}) >= 10
    stages = {tray.template.stages[tray.state.stage].name for tray in growing}
    assert stages >= {"weighted", "under a lid", "blackout", "light"}
    soaked = {tray.state.soaked_at is None for tray in live if tray.state.status == "planned"}
    assert soaked == {True, False}


def test_tomorrow_has_a_sowing_planned(book: Book) -> None:
    tomorrow = the_round(book, book.today() + timedelta(days=1))
    assert any(line.chore == "sow" and line.crop == "broccoli" for line in tomorrow.lines)


def test_trays_of_one_batch_are_in_different_stages(book: Book) -> None:
    stages: dict[int, set[int]] = {}
    for tray in _live(book):
        stages.setdefault(tray.stored.batch_id, set()).add(tray.state.stage)
    assert any(len(each) > 1 for each in stages.values())


def test_the_page_of_today_tells_of_mould_a_sign_and_a_weight(book: Book) -> None:
    lines = page(book)
    assert len(lines) >= 15
    words = " | ".join(line.words for line in lines)
    for part in ("a spot of mould", "ready sign", "cut ", "watered"):
        assert part in words
    assert all(line.at <= book.now() for line in lines)


# What lies behind


def test_the_past_holds_its_mishaps_and_odd_cuts(rows: Reading) -> None:
    kinds = Counter(row[0] for row in rows.rows("SELECT kind FROM entry"))
    assert kinds["discard"] >= 3
    assert kinds["skip"] >= 2
    assert kinds["strike"] == 1
    ((parts, shared),) = rows.rows("SELECT sum(part), sum(shared) FROM weight")
    assert parts >= 1
    assert shared >= 10
    struck = "SELECT max(grams) FROM weight w JOIN entry s ON s.strikes_id = w.entry_id"
    assert rows.value(struck) > 2000


def test_every_mishap_and_note_found_its_batch(rows: Reading) -> None:
    notes = {row[0] for row in rows.rows("SELECT note FROM entry")}
    notes |= {row[0] for row in rows.rows("SELECT mould_where FROM look")}
    told = {mishap.words for mishap in MISHAPS if mishap.what != "move"} - {""}
    told |= {note.words for note in ROOM_NOTES}
    assert told <= notes


def test_notes_hold_text_that_a_careless_screen_chokes_on(book: Book) -> None:
    for awkward in ("[/]", "100 %", "🌻", "germinação", "{yellow}", "=sum("):
        assert search(book, awkward), awkward


def test_guesses_were_replaced_with_a_reason(rows: Reading) -> None:
    found = rows.rows(
        "SELECT t.name FROM template_version v JOIN template t ON t.id = v.template_id "
        "WHERE v.number > 1 AND v.guess = 0 AND v.why <> ''"
    )
    assert len(found) >= 5
    used = "SELECT count(DISTINCT version_id) FROM tray"
    assert rows.value(used) > len(TRUTHS)


def test_weights_are_plausible(book: Book) -> None:
    grams: dict[str, list[float]] = {}
    for tray in _every_tray(book):
        if tray.state.grams is not None and tray.state.status == "cut":
            grams.setdefault(tray.template.name, []).append(tray.state.grams)
    assert len(grams) >= 10
    for crop, weights in grams.items():
        assert mean(weights) == pytest.approx(TRUTHS[crop].grams, rel=0.15), crop
        assert 0.04 <= stdev(weights) / mean(weights) <= 0.2, crop


# As sound as a book written by hand


def test_summaries_equal_the_fold(book: Book) -> None:
    for tray in _every_tray(book):
        grams = tray.state.grams if tray.state.status == "cut" else None
        kept = (tray.stored.live, tray.stored.ended_at, tray.stored.cut_grams)
        assert kept == (tray.state.live, tray.state.ended_at, grams), tray.stored.number
        assert tray.state.status != "void"


def test_numbers_are_unique_among_live_trays(book: Book) -> None:
    numbers = [tray.stored.number for tray in _live(book)]
    assert len(numbers) == len(set(numbers))


def test_no_slot_ever_held_two_trays(rows: Reading) -> None:
    slots = {row[0]: row[1] for row in rows.rows("SELECT id, slots FROM place")}
    ends = {row[0]: row[1] for row in rows.rows("SELECT id, ended_at FROM tray")}
    spans: dict[tuple[int, int], list[tuple[datetime, datetime]]] = {}
    standing: dict[int, tuple[int, int, datetime]] = {}

    def leave(tray: int, at: datetime) -> None:
        place, slot, since = standing.pop(tray)
        spans.setdefault((place, slot), []).append((since, at))

    for tray, place, slot, at in rows.rows(
        "SELECT p.tray_id, p.place_id, p.slot, e.at FROM tray_place p JOIN entry e "
        "ON e.id = p.entry_id WHERE p.slot IS NOT NULL ORDER BY e.at, e.id"
    ):
        assert 1 <= slot <= slots[place]
        if tray in standing:
            leave(tray, moment(at))
        standing[tray] = (place, slot, moment(at))
    for tray in list(standing):
        leave(tray, moment(ends[tray]) if ends[tray] else datetime.max.replace(tzinfo=UTC))
    for spot, held in spans.items():
        held.sort()
        for (_, until), (since, _) in pairwise(held):
            assert until <= since, spot


def test_every_growing_tray_has_a_slot_on_a_shelf(book: Book) -> None:
    view = racks(book)
    assert not view.loose
    for rack in view.racks:
        for shelf in rack.shelves:
            held = [tray.slot for tray in shelf.trays]
            assert None not in held
            assert len(set(held)) == len(held) <= shelf.place.slots
    lamps = [(s.place.lamp_on or 0, s.place.lamp_off or 0) for r in view.racks for s in r.shelves]
    assert any(on > off for on, off in lamps), "a lamp schedule runs over midnight"
    assert any(not shelf.place.lit for rack in view.racks for shelf in rack.shelves)


def test_entries_are_whole(rows: Reading) -> None:
    def count(words: str) -> Any:
        return rows.value(f"SELECT count(*) FROM entry e WHERE {words}")

    assert count("act_id IS NULL OR act_id > id") == 0
    assert count("at > written_at") == 0
    assert (
        count(
            "EXISTS (SELECT 1 FROM entry n WHERE n.id = e.id + 1 AND n.written_at < e.written_at)"
        )
        == 0
    )
    linked = "SELECT count(*) FROM entry_tray t WHERE t.entry_id = e.id"
    placed = "SELECT count(*) FROM tray_place p WHERE p.entry_id = e.id"
    weighed = "SELECT count(*) FROM weight w WHERE w.entry_id = e.id"
    assert count(f"kind IN ('plan', 'sow', 'move') AND ({linked}) <> ({placed})") == 0
    assert count(f"kind = 'weigh' AND ({linked}) <> ({weighed})") == 0
    assert count(f"kind NOT IN {OF_THE_ROOM} AND ({linked}) = 0") == 0
    assert (
        count("kind = 'water' AND NOT EXISTS (SELECT 1 FROM watering w WHERE w.entry_id = e.id)")
        == 0
    )
    assert count("\"by\" = ''") == 0
    assert rows.rows("PRAGMA foreign_key_check") == []
    for (note,) in rows.rows("SELECT note FROM entry WHERE note <> ''"):
        assert clean_note(note) == note
    assert wrong_words(rows, 0, 2**62) == 0


def test_nothing_lies_ahead_of_now(book: Book, rows: Reading) -> None:
    newest = moment(rows.value("SELECT max(written_at) FROM entry"))
    oldest = moment(rows.value("SELECT min(at) FROM entry"))
    assert newest <= book.now()
    assert timedelta(days=85) <= book.now() - oldest <= timedelta(days=95)
    start = day_bounds(book.today(), book.zone)[0]
    assert newest >= start


def test_all_that_is_due_can_be_done_and_the_last_of_it_undone(
    books: dict[str, Book], tmp_path: Path
) -> None:
    """Given the sample, when every due line is done, then only what follows from it is left."""
    source = books[NOWS[0]]
    path = tmp_path / "copy.book"
    shutil.copy(source.file.path, path)
    book = open_book(path, source.clock, "IV")
    for _ in range(4):
        for line in the_round(book).due:
            current = {(each.key, each.numbers) for each in the_round(book).due}
            if (line.key, line.numbers) in current:
                did(book, line.chore, line.numbers)
    assert not the_round(book).due
    before = len(the_round(book).lines)
    undo(book)
    assert len(the_round(book).lines) != before or the_round(book).due


def test_the_same_moment_gives_the_same_book(books: dict[str, Book], tmp_path: Path) -> None:
    now = _at(NOWS[0]).astimezone(UTC)
    again = build(tmp_path / "again.book", now)
    dumps = []
    for book in (books[NOWS[0]], again):
        with closing(sqlite3.connect(book.file.path)) as connection:
            dumps.append(list(connection.iterdump()))
    assert dumps[0] == dumps[1]


def test_an_existing_file_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "mine.book"
    begin_book(path, BeginDraft(), FixedClock(_at(NOWS[0])))
    before = path.read_bytes()
    with pytest.raises(Refused, match="already a file"):
        build(path, _at(NOWS[0]))
    assert path.read_bytes() == before


def test_three_customers_have_standing_lines_and_one_delivery_is_short(book: Book) -> None:
    found = list_deliveries(book, 7).deliveries

    assert [each.name for each in list_customers(book)] == [
        "the chef", "the corner shop", "the Saturday stall",
    ]  # fmt: skip
    assert len([each for each in list_orders(book).orders if each.weekdays]) == 8
    short = [crop.crop for each in found for crop in each.short]
    assert "mustard" in short
    with book.reading() as reading:
        assert len(read_packed(reading, reading.today - timedelta(days=21))) > 8
