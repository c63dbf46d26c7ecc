"""--now is a rehearsal: it looks at any book and writes only to one that was begun with it."""

from __future__ import annotations

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.clock import FixedClock, ToldClock
from tests.conftest import NOW, CommandLine

WRITES = (
    ("jot", "room", "fan off"),
    ("places", "add", "Rack 9", "--kind", "rack"),
    ("templates", "retire", "kale"),
    ("air", "21.4", "63"),
    ("redo",),
)


@pytest.mark.parametrize("words", WRITES, ids=" ".join)
def test_a_real_book_is_not_written_to_under_a_pretended_time(
    empty_cli: CommandLine, words: tuple[str, ...]
) -> None:
    book = begin_book(empty_cli.book, BeginDraft(), FixedClock(NOW), "tester")
    assert book.rehearsal == ""
    before = empty_cli.book.read_bytes()
    assert empty_cli(*words).refusal.endswith(
        "so nothing was written. To say when something happened, use --at."
    )
    assert empty_cli.book.read_bytes() == before
    assert "rehearsal, the round" in empty_cli.done("round").out


def test_a_book_that_was_begun_with_it_is_a_rehearsal(empty_cli: CommandLine) -> None:
    empty_cli.done("begin")
    empty_cli.done("sow", "radish", "--trays", "2")
    empty_cli.now = "2026-04-20T08:00"
    assert "rehearsal, the round: " in empty_cli.done("round").out
    assert empty_cli.done("page").out.splitlines()[0] == "Mon 20 Apr  rehearsal"
    # and says so without a pretended time as well
    assert "rehearsal, the round" in empty_cli.bare("--book", str(empty_cli.book), "round").out
    # what is written then bears the pretended time
    empty_cli.done("jot", "room", "fan off")
    jot = empty_cli.done("page", "--json").json["entries"][-1]
    assert (
        jot["written_at"] == "2026-04-20T08:00:00+01:00"
        or jot["written_at"][:16] == "2026-04-20T08:00"
    )


def test_the_sample_takes_any_time(book: Book) -> None:
    assert book.about.begun_as == "sample"
    assert open_book(book.file.path, ToldClock(NOW)).rehearsal == ""
