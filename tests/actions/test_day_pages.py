"""A day's page and its round: what was written late, crops by any of their names, every watering."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.room.places import PlaceDraft, change_place, list_places
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page, search
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.growing.crops.templates import Stage
from logbook.growing.days import day_of
from logbook.text import Refused
from tests.actions.days import sow_at, stand_at
from tests.conftest import CommandLine
from tests.room import DAY, crop_of, day, moment, wall_words

TWICE = replace(
    crop_of(
        Stage("lid", 2 * DAY, "lid", "dark", "mist", 1.0),
        Stage("light", None, "none", "lit", "bottom", 2.0),
    ),
    name="red stem", crop="radish", variety="pink",
)  # fmt: skip


def test_what_a_helper_writes_late_is_on_both_days_pages(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    stand_at(book, "2026-04-03 09:00")
    did(book, "water", [101], moment("2026-04-02 18:30"))
    jot(book, [102], "as every day")
    today = page(book)
    assert [(line.kind, day_of(line.at, book.zone)) for line in today] == [
        ("water", day("2026-04-02")), ("jot", day("2026-04-03")),
    ]  # fmt: skip
    assert [line.kind for line in page(book, day("2026-04-02"))] == ["water"]
    stand_at(book, "2026-04-04 09:00")
    assert page(book) == []
    assert [line.kind for line in page(book, day("2026-04-03"), kind="water")] == ["water"]


def test_a_late_entry_is_marked_with_its_own_day(book: Book, cli: CommandLine) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-03 09:00")
    did(book, "water", [101], moment("2026-04-02 18:30"))
    cli.now = "2026-04-03T09:05"
    assert "Thu 2 Apr 18:30" in cli.done("page").out


@pytest.mark.parametrize(
    "name", ["red stem", "radish", "PINK", "radish, pink", "radish, pi…", "red"]
)
def test_a_crop_is_found_by_name_crop_variety_or_the_label_on_the_screen(
    book: Book, name: str
) -> None:
    put_template(book, TWICE)
    stand_at(book, "2026-04-20 08:00")
    sow(book, SowDraft("red stem", 1, lot="A 1"))
    sow(book, SowDraft("field test", 1, soaked="dry"))
    jot(book, [101], "crisp")
    assert {line.trays for line in page(book, crop=name)} == {(101,)}
    assert [line.trays for line in search(book, "crisp", crop=name)] == [(101,)]
    with pytest.raises(Refused, match='No crop is called "pinkish"'):
        page(book, crop="pinkish")


def test_a_day_s_round_has_every_watering_in_walking_order(book: Book, cli: CommandLine) -> None:
    cli.now = "2026-04-22T08:15"
    put_template(book, TWICE)
    stand_at(book, "2026-04-20 08:00")
    sow(book, SowDraft("red stem", 2, place="Rack 2/Shelf 1"))
    sow(book, SowDraft("field test", 1, place="Rack 1/Shelf 1", soaked="dry"))
    stand_at(book, "2026-04-22 08:10")
    did(book, "light_on", [101, 102])
    tomorrow = the_round(book, day("2026-04-23")).lines
    assert [line.walk for line in tomorrow] == sorted(line.walk for line in tomorrow)
    water = [line for line in tomorrow if line.chore == "water" and 101 in line.numbers]
    assert [wall_words(line.due_at) for line in water] == ["2026-04-23 07:00", "2026-04-23 17:00"]
    assert len({line.key for line in tomorrow}) == len(tomorrow)
    did(book, "water", [101])
    today = [line for line in the_round(book, day("2026-04-22")).lines if 101 in line.numbers]
    assert [wall_words(line.due_at) for line in today] == ["2026-04-22 17:00"]
    printed = cli.done("round", "--day", "today").out
    assert printed.index("Rack 1/Shelf 1") < printed.index("Rack 2/Shelf 1")
    assert "Later" not in printed
    overdue = [line for line in the_round(book, day("2026-04-22")).lines if 102 in line.numbers]
    assert len(overdue) == 2  # dry when it came to the light, and again in the evening


def test_a_merged_line_of_later_shows_each_time_that_differs(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    stand_at(book, "2026-04-05 16:00")
    for number, at in ((101, "10:00"), (102, "11:30"), (103, "11:30")):
        did(book, "weight_off", [number], moment(f"2026-04-05 {at}"))
    stand_at(book, "2026-04-06 09:00")
    (line,) = [each for each in the_round(book).waiting if each.chore == "light_on"]
    assert line.when_words(book.now()) == "10:00, 11:30"


def test_a_place_that_stays_as_it_is_is_said_to(book: Book, cli: CommandLine) -> None:
    stand_at(book, "2026-04-20 08:00")
    place = list_places(book)[2].place
    draft = PlaceDraft(
        place.name, slots=place.slots, lamp_on=place.lamp_on, lamp_off=place.lamp_off
    )
    assert change_place(book, place.path, draft) == place
    assert change_place(book, place.path, replace(draft, slots=9)) != place
    cli.now = "2026-04-20T08:05"
    same = cli.done("places", "change", place.path, "--slots", "9").out
    assert same.endswith("is as it was: nothing was changed.\n")
    assert cli.done("places", "change", place.path, "--slots", "8").out.endswith("is changed.\n")
