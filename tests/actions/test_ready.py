"""A sowing for what is wanted at a time, and what is said where it is too late."""

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.growing.crops.templates import CutWindow, Stage
from logbook.text import Refused
from tests.actions.days import chores, sow_at, stand_at
from tests.room import DAY, crop_of, moment, wall_words


def test_what_is_wanted_stands_on_the_round_from_the_soak_on(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sown = sow(book, SowDraft("field test", 2, ready=moment("2026-04-10 06:00")))
    plan = sown.plan
    assert plan.planned
    assert plan.soak_at is not None
    assert wall_words(plan.soak_at) == "2026-04-02 07:00"
    assert plan.cut_at is not None
    assert wall_words(plan.cut_at) == "2026-04-09 17:00"
    stand_at(book, "2026-04-02 07:30")
    assert "soak" in [chore for chore, _ in chores(book)]


def test_too_late_says_the_first_day_and_what_else_there_is(book: Book) -> None:
    sow_at(book, "2026-03-27 08:00", 2, soaked="dry")
    stand_at(book, "2026-04-01 08:00")
    put_template(book, crop_of(Stage("light", None, light="lit"), cut=CutWindow(DAY, DAY, 3 * DAY)))
    with pytest.raises(Refused) as refused:
        preview(book, SowDraft("field test", 2, ready=moment("2026-04-05 06:00")))
    assert refused.value.about == "ready"
    said = str(refused.value)
    assert "Soaked now, it can be cut from Wed 8 Apr 12:00." in said
    assert "Trays 101 102 can be cut by then." in said
    assert "odd" in said.split("These would be in time: ")[1]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"ready": moment("2026-04-01 07:00")}, "07:00 is past."),
        (
            {"ready": moment("2026-04-20 07:00"), "at": moment("2026-04-02 07:00")},
            "Say when to sow",
        ),
        ({"ready": moment("2026-04-20 07:00"), "soaked": "now"}, "With a soak that has begun"),
        ({"ready": moment("2029-04-20 07:00")}, "more than a year ahead"),
    ],
)
def test_what_cannot_be_counted_back(book: Book, more: dict[str, object], said: str) -> None:
    stand_at(book, "2026-04-01 08:00")
    with pytest.raises(Refused, match=said):
        preview(book, SowDraft("field test", 2, **more))  # type: ignore[arg-type]
