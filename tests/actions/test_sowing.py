"""Sowing: now, in the past, or planned ahead."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template, retire_template
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did, skip, unsaid_soak
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sow_words import plan_words, standing_words
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.growing.crops.templates import Stage
from logbook.text import Refused
from logbook.ways import Way
from tests.actions.days import chores, counts, soaked_by_template, sow_at, stand_at, views
from tests.room import crop_of, day, field_test, moment, wall_words


def test_before_saving_it_shows_what_it_comes_to(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    before = counts(book)
    plan = preview(book, SowDraft("field test", 4, place="Rack 1/Shelf 2"))
    assert counts(book) == before
    assert plan.numbers == (101, 102, 103, 104)
    assert plan.seed_grams == 400
    assert (plan.soak_at, plan.asks_soak) == (None, True)
    assert [each.chore for each in plan.changes] == ["weight_off", "light_on"]
    assert wall_words(plan.cut.best) == "2026-04-08 20:00"
    assert plan.places == ("Rack 1/Shelf 2",) * 4
    assert sow(book, SowDraft("field test", 4, place="Rack 1/Shelf 2")).plan == plan


def test_a_soak_is_written_only_if_somebody_says_that_it_was_done(book: Book) -> None:
    # given a crop that its template soaks for 4 h
    for soaked, at, entries in (
        (None, None, ["sow 08:00"]),
        ("dry", None, ["sow 08:00"]),
        (moment("2026-04-01 03:10"), None, ["soak 03:10", "sow 08:00"]),
        # soaked now, it is sown when the template's soak is over, or when the grower says
        ("now", None, ["plan 08:00", "soak 08:00"]),
        ("now", moment("2026-04-01 13:30"), ["plan 08:00", "soak 08:00"]),
    ):
        sown = sow_at(book, "2026-04-01 08:00", 1, soaked=soaked, at=at, lot="L-1", note="by hand")
        past = tray_page(book, sown.plan.numbers[0]).past
        assert [f"{line.kind} {wall_words(line.at)[11:]}" for line in past] == entries
        ahead = "2026-04-01 13:30" if at else "2026-04-01 12:00"
        assert wall_words(sown.plan.sow_at) == (ahead if soaked == "now" else "2026-04-01 08:00")
        assert sown.plan.asks_soak is (soaked is None)
    assert batch_page(book, "1").lot == "L-1"


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        (1.99, "The soak is short: 1 h, where the template has 4 h."),
        (2, ""),
        (6, ""),
        (6.01, "The soak is long: 6 h, where the template has 4 h. Old water and warmth"),
    ],
)
def test_a_soak_far_from_the_template_s_is_said_at_the_sowing(
    book: Book, hours: float, said: str
) -> None:
    # half and one and a half times: common practice, no source
    soaked = moment("2026-04-01 08:00") - timedelta(hours=hours)
    assert sow_at(book, "2026-04-01 08:00", 1, soaked=soaked).notices == () if not said else True
    # and the same where the trays were planned
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", numbers=(7,), at=moment("2026-04-01 09:00")))
    assert unsaid_soak(book, [7]) == 4 * 3600
    done = did(book, "sow", [7], soaked=soaked)
    assert " ".join(done.notices)[: len(said) or None] == said
    assert tray_page(book, 7).tray.state.soaked_at == soaked


def test_planned_trays_are_soaked_now_or_sown_dry(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, at=moment("2026-04-01 09:00")))
    did(book, "sow", [101], soaked="now")
    assert [line.kind for line in tray_page(book, 101).past] == ["plan", "soak"]
    assert unsaid_soak(book, [101]) == 0
    did(book, "sow", [102], soaked="dry")
    assert tray_page(book, 102).tray.state.soaked_at is None
    with pytest.raises(Refused, match="Only sow takes"):
        did(book, "water", [102], soaked="dry")
    with pytest.raises(Refused, match="already soaking"):
        did(book, "sow", [101], soaked=moment("2026-04-01 07:00"))
    with pytest.raises(Refused, match="went into the water 08:00; it cannot have been sown before"):
        did(book, "sow", [101], moment("2026-04-01 07:59"))
    assert did(book, "sow", [101]).notices == (
        "The soak is short: 0 min, where the template has 4 h.",
    )


def test_soak_at_is_the_time_of_a_plan(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    plan = sow(book, SowDraft("field test", 1, soak_at=moment("2026-04-01 20:00"))).plan
    assert (plan.planned, wall_words(plan.sow_at)) == (True, "2026-04-02 00:00")
    assert [line.kind for line in tray_page(book, 101).past] == ["plan"]
    assert plan.notices == ()
    late = preview(book, SowDraft("field test", 1, at=moment("2026-04-01 11:00"), plan=True))
    assert late.notices == ("The soak should have begun 07:00; seed soaked now can be sown 12:00.",)


def test_real_grams_marks_and_numbers(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    plan = sow(
        book,
        SowDraft("field test", numbers=(7, 9), grams=31.5, colours=("red", "blue")),
    ).plan
    assert (plan.numbers, plan.seed_grams) == ((7, 9), 63)
    assert [tray_page(book, number).tray.colour for number in (7, 9)] == ["red", "blue"]
    assert tray_page(book, 7).tray.seed_grams == 31.5


def test_the_book_gives_numbers_that_are_free(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    sow_at(book, "2026-04-01 09:00", 1, numbers=(105,))
    assert sow_at(book, "2026-04-01 10:00", 2).plan.numbers == (106, 107)


def test_a_full_shelf_is_said_and_the_rest_stands_elsewhere(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3, place="Rack 1/Shelf 1")
    plan = sow_at(book, "2026-04-01 09:00", 3, place="Rack 1/Shelf 1").plan
    assert plan.places == ("Rack 1/Shelf 1", "Rack 1/Shelf 2", "Rack 1/Shelf 2")
    assert plan.notices == (
        "Rack 1/Shelf 1 has room for only 1 of the 3 trays.",
        "2 of them will go on Rack 1/Shelf 2.",
    )


def test_a_full_room_still_takes_the_sowing_and_says_so(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 30)
    plan = sow_at(book, "2026-04-01 09:00", 4).plan
    assert plan.places[2:] == ("", "")
    assert "Every shelf is full: 2 trays have no slot yet" in plan.notices[-1]
    assert [tray.number for tray in racks(book).loose] == [133, 134]


def test_a_soak_whose_time_is_put_right_is_no_longer_by_the_template(book: Book) -> None:
    soaked_by_template(book, "2026-04-01 08:00")
    (soak,) = (line for line in page(book, day("2026-04-01")) if line.kind == "soak")
    assert soak.note == "time by the template"
    replace_entry(book, soak.id, "began earlier", Changes(at=moment("2026-04-01 02:00")))
    (soak,) = (
        line for line in page(book, day("2026-04-01")) if line.kind == "soak" and not line.struck
    )
    assert (wall_words(soak.at), soak.note) == ("2026-04-01 02:00", "")


def test_a_planned_batch_puts_soak_and_sow_on_the_round_of_their_day(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    draft = SowDraft("field test", 2, at=moment("2026-04-03 02:00"), place="Rack 2/Shelf 1")
    assert sow(book, draft).plan.planned
    assert chores(book) == []
    assert chores(book, "2026-04-02") == [("soak", (101, 102))]
    assert chores(book, "2026-04-03") == [("sow", (101, 102))]
    stand_at(book, "2026-04-02 22:10")
    did(book, "soak", [101, 102])
    stand_at(book, "2026-04-03 06:00")
    assert chores(book) == [("sow", (101, 102))]
    did(book, "sow", [101])
    assert tray_page(book, 101).tray.place == "Rack 2/Shelf 1"
    assert chores(book) == [("sow", (102,))]
    skip(book, "sow", [102], "tray cracked")
    assert chores(book) == []
    assert ("sow", (102,)) in chores(book, "2026-04-04")


def test_who_sows_what_was_planned_nowhere_hears_where_it_goes(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, at=moment("2026-04-03 02:00")))
    stand_at(book, "2026-04-03 06:00")
    said = did(book, "sow", [101, 102], soaked="dry")
    assert said.words == f"sow: 101 102, 06:00, 101 102 on {tray_page(book, 101).tray.place}"


def test_a_batch_planned_with_its_seed_in_the_water_is_only_to_be_sown(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    draft = SowDraft(
        "field test", 1, at=moment("2026-04-01 10:30"), soaked=moment("2026-04-01 07:00")
    )
    assert sow(book, draft).plan.soak_at == moment("2026-04-01 07:00")
    assert [(line.kind) for line in page(book)] == ["soak", "plan"]
    stand_at(book, "2026-04-01 11:05")
    assert chores(book) == [("sow", (101,))]


def test_a_batch_keeps_the_version_that_it_was_sown_with(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    put_template(book, field_test(seed_grams=77.0), "less seed")
    sow_at(book, "2026-04-01 09:00", 1)
    assert [batch_page(book, each).version for each in ("1", "2")] == [1, 2]
    assert [batch_page(book, each).seed_grams for each in ("1", "2")] == [100, 77]


def test_a_sowing_recorded_days_later_lies_where_it_belongs(book: Book) -> None:
    stand_at(book, "2026-04-04 08:00")
    sow(book, SowDraft("field test", 1, at=moment("2026-04-01 08:00")))
    shown = tray_page(book, 101)
    assert (shown.tray.day_number, shown.tray.status) == (4, "growing")
    assert ("water_look", (101,)) in chores(book)


@pytest.mark.parametrize(
    ("draft", "words"),
    [
        ({"template": "sunflwr"}, 'no crop template "sunflwr". Did you mean "sunflower"'),
        ({"template": ""}, "no crop template"),
        ({"trays": 0}, "from 1 to 500"),
        ({"trays": -3}, "from 1 to 500"),
        ({"trays": 10_000}, "from 1 to 500"),
        ({"trays": None}, "from 1 to 500"),
        ({"numbers": (101, 102)}, "2 numbers for 1 tray"),
        ({"numbers": (101,)}, "In use already: 101. Free: 103"),
        ({"at": moment("2024-03-01 08:00")}, "more than two years ago"),
        ({"at": moment("2027-06-01 08:00")}, "more than a year ahead"),
        ({"plan": True, "at": moment("2026-04-01 08:00")}, "must be for later"),
        ({"place": "Rack 9"}, 'no place "Rack 9"'),
        ({"grams": 0}, "seed per tray must be"),
        ({"grams": -3}, "seed per tray must be"),
        ({"grams": 1e9}, "seed per tray must be"),
        ({"colours": ("red", "blue")}, "one colour mark"),
        ({"lot": "x" * 81}, "use up to 80"),
        ({"note": "x" * 20_001}, "20,001 characters"),
        ({"soaked": moment("2026-04-14 09:00")}, "soak begins before the sowing"),
        ({"soaked": moment("2026-04-01 09:00")}, "longer than a week"),
        ({"template": "basil", "soaked": moment("2026-04-14 01:00")}, "gels when soaked"),
        ({"template": "basil", "soaked": "now"}, "no soak in its template"),
        ({"soak_at": moment("2026-04-14 07:00")}, "That soak has begun already"),
        ({"at": moment("2026-04-15 09:00"), "soak_at": moment("2026-04-14 20:00")}, "another time"),
    ],
)
def test_what_cannot_be_sown_is_refused_and_nothing_is_written(
    book: Book, draft: dict[str, Any], words: str
) -> None:
    sow_at(book, "2026-04-14 07:00", 2)
    stand_at(book, "2026-04-14 07:42")
    before, rows = views(book), counts(book)
    with pytest.raises(Refused, match=words):
        sow(book, SowDraft(**{"template": "field test", "trays": 1, **draft}))
    assert counts(book) == rows
    assert views(book) == before


def test_a_retired_template_is_no_longer_offered(book: Book) -> None:
    retire_template(book, "field test")
    with pytest.raises(Refused, match=f"is retired; {Way.TEMPLATE_BACK}"):
        sow_at(book, "2026-04-01 08:00")
    retire_template(book, "field test", back=True)
    assert sow_at(book, "2026-04-01 08:00").batch_id == 1


def test_an_hour_s_difference_in_the_plan_is_an_hour_s_difference_in_the_cut(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    one = preview(book, SowDraft("field test", 1, at=moment("2026-04-02 08:00")))
    two = preview(book, SowDraft("field test", 1, at=moment("2026-04-02 09:00")))
    assert two.cut.best - one.cut.best == timedelta(hours=1)


def test_far_more_or_less_seed_than_the_template_s_is_asked_about(book: Book) -> None:
    for grams, asked in ((100.0, False), (380.0, False), (400.0, True), (20.0, True)):
        notices = preview(book, SowDraft("field test", 1, grams=grams)).notices
        assert any("is that right?" in notice for notice in notices) is asked


def test_what_a_sowing_comes_to_is_said_line_by_line(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    plan = preview(book, SowDraft("field test", 5, place="Rack 1/Shelf 2"))
    assert plan_words(plan, book) == [
        "field test: 5 trays 101–105",
        "seed 500 g (100 g per tray)",
        (
            "When did the soak begin? The template has 4 h, so since 04:00. "
            'Or "dry"; or "now" to soak it now and sow it 12:00.'
        ),
        "sow 08:00",
        "weight off, lid on Sun 08:00",
        f"{plan.changes[1].words} Mon 08:00",
        "cut from Wed 8 Apr 08:00, best Wed 8 Apr 20:00, by Fri 10 Apr 08:00",
    ]
    assert standing_words(plan) == ["101–104 on Rack 1/Shelf 2", "105 on Rack 1/Shelf 3"]
    # and of a crop of which neither seed nor soak is known nothing is said of them
    put_template(book, crop_of(Stage("light", None, "none", "lit")))
    plain = preview(book, SowDraft("odd", 1))
    assert plain.seed_grams is None
    assert [line.split()[0] for line in plan_words(plain, book)] == ["odd:", "sow", "cut"]


@pytest.mark.parametrize(
    ("draft", "wrong"),
    [
        ({"trays": 500}, {"trays": 501}),
        ({"grams": 20_000.0}, {"grams": 20_001.0}),
        ({"at": timedelta(days=-732)}, {"at": timedelta(days=-732, seconds=-1)}),
        ({"at": timedelta(days=366)}, {"at": timedelta(days=366, seconds=1)}),
        ({"soaked": timedelta(days=-7)}, {"soaked": timedelta(days=-7, seconds=-1)}),
        ({"soaked": timedelta()}, {"soaked": timedelta(seconds=1)}),
        ({"soak_at": timedelta(seconds=1)}, {"soak_at": timedelta()}),
        ({"colours": ("red", "blue")}, {"colours": ("red", "blue", "red")}),
    ],
)
def test_a_sowing_may_go_to_the_very_end_of_what_is_possible(
    book: Book, draft: dict[str, Any], wrong: dict[str, Any]
) -> None:
    def given(some: dict[str, Any]) -> SowDraft:
        found: dict[str, Any] = {
            name: book.now() + value if isinstance(value, timedelta) else value
            for name, value in some.items()
        }
        found.setdefault("trays", 2)
        return SowDraft("field test", **found)

    before = counts(book)
    with pytest.raises(Refused):
        sow(book, given(wrong))
    assert counts(book) == before
    sow(book, given(draft))


@pytest.mark.parametrize(
    ("grams", "odd"), [(25, True), (25.1, False), (399, False), (400, True)]
)  # fmt: skip
def test_a_quarter_or_four_times_the_seed_is_asked_about(
    book: Book, grams: float, odd: bool
) -> None:
    notices = preview(book, SowDraft("field test", 1, grams=grams)).notices
    assert any("is that right" in each for each in notices) is odd
