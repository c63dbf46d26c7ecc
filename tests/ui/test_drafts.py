"""Drafts of one book in several apps: each has its own; what an ended one left is anybody's."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.ui.drafts import Draft, Drafts
from tests.ui.list_room import cutting_room
from tests.ui.racks_book import walk
from tests.ui.steps import press, screen_text, sees

JOT = Draft("jot", "101 radish", {"text": "too wet"}, (101,))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return cutting_room(tmp_path)


def test_what_is_typed_in_another_app_is_not_offered(book: Book) -> None:
    other = Drafts(book.file.path)
    other.keep(JOT)

    async def story(pilot: Pilot[None]) -> None:
        assert "Not saved last time" not in screen_text(pilot)
        await press(pilot, "j")
        assert "too wet" not in screen_text(pilot)

    walk(book, story, (80, 24))
    other.let_go()

    async def later(pilot: Pilot[None]) -> None:
        await sees(pilot, "Not saved last time", 'jot 101 radish: "too wet"')

    walk(book, later, (80, 24))


def test_what_two_apps_keep_of_one_thing_is_two_drafts() -> None:
    one, two = Drafts(Path("room.book")), Drafts(Path("room.book"))
    one.keep(JOT)
    two.keep(Draft("jot", "101 radish", {"text": "too dry"}, (101,)))
    assert [draft.texts["text"] for draft in one.all()] == ["too wet"]
    two.drop(JOT.key)
    assert one.find(JOT.key) == JOT
    assert two.all() == []


def test_a_draft_that_is_taken_up_is_no_longer_offered_to_others() -> None:
    ended, one, two = (Drafts(Path("room.book")) for _ in range(3))
    ended.keep(JOT)
    ended.let_go()
    assert one.all() == two.all() == [JOT]
    assert one.find(JOT.key) == JOT
    assert two.all() == []
    assert two.find(JOT.key) is None
    two.throw_away([JOT.key])
    assert one.all() == [JOT]


def test_what_several_ended_apps_left_comes_one_after_another() -> None:
    for text in ("first", "second"):
        ended = Drafts(Path("room.book"))
        ended.keep(Draft("jot", "", {"text": text}, (101,)))
        ended.let_go()
    drafts = Drafts(Path("room.book"))
    for wanted in ("second", "first"):
        found = drafts.find(JOT.key)
        assert found is not None
        assert found.texts["text"] == wanted
        drafts.drop(JOT.key)
    assert drafts.find(JOT.key) is None


def test_files_named_as_in_the_first_version_are_offered() -> None:
    drafts = Drafts(Path("room.book"))
    drafts.keep(JOT)
    (path,) = drafts.folder.glob("*.json")
    path.rename(path.with_name(f"{path.name.partition('.')[0]}.json"))
    drafts.let_go()
    other = Drafts(Path("room.book"))
    assert other.all() == [JOT]
    assert other.find(JOT.key) == JOT
    other.drop(JOT.key)
    other.let_go()
    assert list(other.folder.iterdir()) == []


def test_nothing_is_left_behind_where_no_draft_is() -> None:
    killed, living = Drafts(Path("room.book")), Drafts(Path("room.book"))
    (killed.folder.parent).mkdir(parents=True)
    killed.folder.mkdir()
    for name in (f"{killed.token}.lock", f"abc.{killed.token}.unfinished"):
        (killed.folder / name).touch()
    living.keep(JOT)
    ending = Drafts(Path("room.book"))
    ending.keep(JOT)
    ending.drop(JOT.key)
    ending.let_go()
    (lock, kept) = sorted(living.folder.iterdir(), key=lambda path: path.suffix, reverse=True)
    assert lock.name == f"{living.token}.lock"
    assert kept.suffix == ".json"
    assert ending.all() == []


def test_a_draft_of_nothing_in_particular_is_named_by_its_kind_alone() -> None:
    assert Draft("weigh", "", {"line": "28"}).words == 'weigh: "28"'
