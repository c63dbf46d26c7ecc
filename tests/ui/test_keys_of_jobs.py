"""The daily jobs take as many keys as the table for developers says, and do what it says."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from tests.bench.hands import JOBS
from tests.ui.racks_book import stand_at, walk
from tests.ui.steps import press, screen_text

NOW = datetime(2026, 4, 14, 10, tzinfo=UTC)
MOST = {"water and look at the 20 trays of a shelf": 1, "move them to another shelf": 6}
DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def shelf_of_twenty(folder: Path) -> Book:
    """Twenty trays that want water and a look on the first shelf, two that are ready to cut on the second."""
    draft = BeginDraft("Test room", "UTC", racks=1, shelves=3, slots=20)
    book = begin_book(folder / "room.book", draft, FixedClock(NOW - timedelta(days=9)), "ab")
    sow(book, SowDraft("radish", numbers=(101, 106), place="Rack 1/Shelf 2"))
    for days, chore in ((7, "weight_off"), (6, "light_on")):
        stand_at(book, NOW - timedelta(days=days))
        did(book, chore, [101, 106])
    stand_at(book, NOW - timedelta(days=1))
    sow(book, SowDraft("radish", numbers=tuple(range(301, 321)), place="Rack 1/Shelf 1"))
    did(book, "water", [101, 106])
    stand_at(book, NOW)
    return book


def test_each_job_is_done_by_its_keys(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("logbook.ui.app.BOUNCE_SECONDS", 0.0)  # undone faster than hands can
    book = shelf_of_twenty(tmp_path)

    async def story(pilot: Pilot[None]) -> None:
        for job in JOBS:
            before = {line.id for line in page(book)}
            await press(pilot, "home", *job.keys)
            written = {line.kind for line in page(book) if line.id not in before}
            assert job.kind in {*written, ""}, (
                f"{job.keys} did not {job.words}, but {written}:\n{screen_text(pilot)}"
            )
            if not job.kind:
                assert "tray" in str(type(pilot.app.screen)).casefold()
            elif job is not JOBS[0] and job.kind != "strike":
                await press(pilot, "u", "y", "f2")  # it asks about what another screen wrote

    walk(book, story, (80, 24))


def test_the_table_for_developers_has_the_keys_of_each_job() -> None:
    told = DEVELOPERS.read_text(encoding="utf-8")
    for job in JOBS:
        assert f"| {job.words} | {len(job.keys)}: {' '.join(job.keys)} | {job.sheet} |" in told
        assert len(job.keys) <= MOST.get(job.words, 10)
    ours, theirs = sum(len(job.keys) for job in JOBS), sum(job.sheet for job in JOBS)
    assert f"| all | {ours} | {theirs} | |" in told
