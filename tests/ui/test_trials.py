"""The trials on the screen: the list, one trial, and setting one up."""

from __future__ import annotations

from datetime import timedelta

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.crops.templates import show_template
from logbook.actions.trays.round import the_round
from logbook.actions.trials.finding import list_trials
from logbook.actions.trials.judging import judge_trial
from logbook.growing.numbers import life
from logbook.growing.trials.view import TrialView
from logbook.ui.forms.asking import Question
from logbook.ui.screens.trials.trial import TrialScreen
from logbook.ui.screens.trials.trial_form import read_parts
from logbook.ui.subjects import TraySubject, TrialSubject
from logbook.ui.tasting_keys import read_said
from tests.trial_room import finished, make_trial, sow_all
from tests.ui.list_room import SIZES, rows, walk, where_to, widest, words
from tests.ui.steps import press, settle

HEAVY = {"thin": (400, 410, 405), "thick": (520, 515, 530)}


def _text(pilot: Pilot[None]) -> str:
    return " ".join(" ".join(rows(pilot)).split())


async def _answer(pilot: Pilot[None], text: str) -> None:
    """Type an answer into the question that is open."""
    assert isinstance(pilot.app.screen, Question), pilot.app.screen
    await press(pilot, *([text] if text else []), "enter")


@pytest.mark.parametrize("size", SIZES)
def test_the_list_says_how_far_each_trial_is(book: Book, size: tuple[int, int]) -> None:
    finished(book, HEAVY)
    make_trial(book, name="soaked or not", factor="soak", arms=("none", "8h"))

    async def story(pilot: Pilot[None]) -> None:
        first, second = rows(pilot)
        assert first.startswith("soaked or not")
        assert "set up" in first
        assert "cut" in second
        assert widest(pilot) <= size[0] - 3

    walk(book, "trials", story, size)


def test_another_trial_opens_at_its_top_and_says_that_it_is_judged(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    finished(book, HEAVY)
    make_trial(book, name="soaked or not", factor="soak", arms=("none", "8h"))
    meanwhile: list[list[str]] = []

    async def story(pilot: Pilot[None]) -> None:
        def judging(screen: TrialScreen, book: Book) -> TrialView:
            meanwhile.append(rows(pilot))
            return judge_trial(book, screen.subject.trial)

        monkeypatch.setattr(TrialScreen, "load", judging)
        await press(pilot, "down", "enter", "end")
        screen = pilot.app.screen
        assert isinstance(screen, TrialScreen)
        assert screen.walk.key.startswith("tray/")
        await press(pilot, "y", "home", "enter")
        assert screen.walk.key == "head/0"
        assert meanwhile == [["judging…"], ["judging…"]]

    walk(book, "trials", story, SIZES[0])


@pytest.mark.parametrize("size", SIZES)
def test_no_trials_says_how_to_begin(book: Book, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert rows(pilot) == ["No trials yet: + sets one up."]
        await press(pilot, "enter", "k")
        assert words(pilot, "said") == "Select a trial first."

    walk(book, "trials", story, size)


@pytest.mark.parametrize("size", SIZES)
def test_one_trial_shows_dots_words_and_trays(book: Book, size: tuple[int, int]) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        text = _text(pilot)
        assert "Does thicker sowing pay?" in text
        assert "3/3 405 400–410" in text or "range g 400–410 515–530" in text
        assert "•" in text
        assert "The arms differ" in text
        assert "In short" in text
        assert "Nothing can be said about costs" in text
        for number in range(101, 107):
            assert str(number) in text
        assert widest(pilot) <= size[0] - 3
        head = pilot.app.screen.query_one("#head")
        assert head.size.width <= size[0]

    walk(book, TrialSubject("thick or thin"), story, size)


@pytest.mark.parametrize("size", SIZES)
def test_a_trial_without_trays_is_no_puzzle(book: Book, size: tuple[int, int]) -> None:
    make_trial(book)

    async def story(pilot: Pilot[None]) -> None:
        assert "No tray is in this trial yet; sow it, or add trays." in _text(pilot)
        await press(pilot, "X")
        assert "Select a tray first" in words(pilot, "said")

    walk(book, TrialSubject("thick or thin"), story, size)


def test_n_sows_all_arms(book: Book) -> None:
    make_trial(book)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await _answer(pilot, "")  # now
        await _answer(pilot, "L7")
        await _answer(pilot, "")
        assert "When did the soak begin? Or y" in words(pilot, "asked")
        await _answer(pilot, "y")
        # where they go is said before they are written
        assert "on Rack 1/Shelf 1, in this order: 101 102 103 104" in words(pilot, "asked")
        assert not judge_trial(book, "thick").records
        await press(pilot, "y")
        assert "6 trays sown" in words(pilot, "said")
        assert "Nothing is cut yet: 6 trays still growing." in _text(pilot)

    walk(book, TrialSubject("thick or thin"), story, (80, 24))
    records = judge_trial(book, "thick").records
    assert {record.lot for record in records} == {"L7"}
    # each arm's seed was soaked as long as it wants: 4 h
    assert {record.state.soaked_at for record in records} == {book.now() - timedelta(hours=4)}


def test_a_trial_is_planned_with_its_soak(book: Book) -> None:
    make_trial(book, replicates=1)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await _answer(pilot, "tomorrow 18:00")
        await _answer(pilot, "L7")
        await _answer(pilot, "")
        await press(pilot, "y")

    walk(book, TrialSubject("thick or thin"), story, (80, 24))
    lines = the_round(book, book.today() + timedelta(days=1)).lines
    assert sorted({line.chore for line in lines}) == ["soak", "sow"]
    assert {record.state.status for record in judge_trial(book, "thick").records} == {"planned"}


def test_the_same_day_is_asked_about_and_enter_is_no_yes(book: Book) -> None:
    make_trial(book, replicates=1)
    sow_all(book, "2026-04-14 07:00")

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "n")
        await _answer(pilot, "")
        await _answer(pilot, "L7")
        await _answer(pilot, "Rack 2/Shelf 1")
        await _answer(pilot, "dry")
        await press(pilot, "enter")
        assert len(judge_trial(book, "thick").records) == 2
        await press(pilot, "n")
        assert "Nothing was sown; what was typed is kept." in words(pilot, "said")
        await press(pilot, "n")
        await _answer(pilot, "")
        await _answer(pilot, "")
        await _answer(pilot, "")
        await _answer(pilot, "dry")
        await press(pilot, "y")
        assert "week 2: 2 trays sown" in words(pilot, "said")
        second = judge_trial(book, "thick").records[2:]
        assert {(each.lot, each.place) for each in second} == {("L7", "Rack 2/Shelf 1")}

    walk(book, TrialSubject("thick or thin"), story, (80, 24))


def test_a_tray_is_left_out_and_opened(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "1")
        await press(pilot, "escape")
        screen = pilot.app.screen
        assert isinstance(screen, TrialScreen)
        from logbook.ui.widgets.walk_list import WalkList

        screen.query_one(WalkList).go_to_key("tray/101")
        await press(pilot, "X")
        await _answer(pilot, "mould")
        assert "left out: mould" in _text(pilot)
        went = where_to(pilot, monkeypatch)
        await press(pilot, "enter")
        assert went == [TraySubject(life(101, 1))], "it has ended: its own life is opened"

    walk(book, TrialSubject("thick or thin"), story, (80, 24))


def test_what_counts_is_asked_decided_and_adopted(book: Book) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "C", "w")
        await _answer(pilot, "yield 2, taste 1")
        assert "counts" in words(pilot, "said")
        await press(pilot, "D")
        await _answer(pilot, "keep thick")
        await _answer(pilot, "thicker still")
        assert "keep thick. Next: thicker still." in _text(pilot)
        await press(pilot, "A")
        await _answer(pilot, "thick")
        await _answer(pilot, "more weight")
        await _answer(pilot, "")
        assert "version 2 is written" in words(pilot, "said")

    walk(book, TrialSubject("thick or thin"), story, (80, 24))
    view = show_template(book, "field test")
    assert view.template.seed_grams == 120
    assert view.versions[0].why == 'trial "thick or thin", arm "thick": more weight'


def test_tasters_are_asked_sample_by_sample(book: Book) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "T", "enter")
        await press(pilot, "y")  # draw codes
        assert isinstance(pilot.app.screen, Question)
        assert "must not see" in pilot.app.screen.asked
        await press(pilot, "y")
        await _answer(pilot, "AB")
        await _answer(pilot, "70")
        assert "must be between 1 and 9" in str(
            pilot.app.screen.query_one("#wrong", Static).content
        )
        await press(pilot, "backspace", "backspace")
        await _answer(pilot, "7 6")
        await press(pilot, "up")
        assert "(1 of 2 samples)" in pilot.app.screen.asked
        for given in ("", "5 4 8 a bit bitter"):
            await _answer(pilot, given)
        assert "AB tasted 2 samples" in words(pilot, "said")
        text = _text(pilot)
        assert "With 1 taster nothing can be shown" in text
        assert "a bit bitter" in text

    walk(book, TrialSubject("thick or thin"), story, (80, 24))


def test_the_odd_cup_is_asked_in_one_line(book: Book) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "T", "o")
        assert isinstance(pilot.app.screen, Question)
        assert "thin and thick: how many tasted" in pilot.app.screen.asked
        await _answer(pilot, "twelve")
        assert isinstance(pilot.app.screen, Question)
        assert "like 12 8" in str(pilot.app.screen.query_one("#wrong", Static).content)
        await press(pilot, *["backspace"] * 6)
        await _answer(pilot, "12 8")
        assert "8 of 12" in words(pilot, "said")
        assert "thin and thick: Some tasters can tell them apart: 8 of 12" in _text(pilot)

    walk(book, TrialSubject("thick or thin"), story, (80, 24))


def test_with_three_arms_the_two_are_asked(book: Book) -> None:
    make_trial(book, arms=("a=80g", "b=90g", "c=100g"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "T", "o")
        await _answer(pilot, "a")
        await _answer(pilot, "c")
        await _answer(pilot, "6 of us, 6 right")
        assert "a and c" in words(pilot, "said")

    walk(book, TrialSubject("thick or thin"), story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_prices_are_asked_and_the_money_is_said(book: Book, size: tuple[int, int]) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "C", "p")
        await _answer(pilot, "seed 10; hour 12; minutes 5; thick 10")
        assert "until the book is closed" in words(pilot, "said")
        text = _text(pilot)
        assert "Per 100 g cut, seed and work cost: thin 0.444 and thick 0.613" in text
        assert "The book has no currency yet; the room, from places (F10), sets it." in text
        assert "In grams, thick cut 117 g more than thin." in text
        await press(pilot, "C", "p")
        assert isinstance(pilot.app.screen, Question)
        await press(pilot, "escape")

    walk(book, TrialSubject("thick or thin"), story, size)


def test_a_trial_is_struck_from_the_list_and_stays_in_the_record(book: Book) -> None:
    finished(book, HEAVY)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "k")
        await _answer(pilot, "set up twice")
        assert "stays in the record" in words(pilot, "said")
        assert rows(pilot) == ["No trials yet: + sets one up."]
        await press(pilot, "u")
        assert len(rows(pilot)) == 1

    walk(book, "trials", story, (80, 24))


@pytest.mark.parametrize("size", SIZES)
def test_the_form_sets_a_trial_up_and_says_what_it_can_show(
    book: Book, size: tuple[int, int]
) -> None:
    from tests.ui.forms_room import fill, flat, form
    from tests.ui.steps import press, said, until

    async def story(pilot: Pilot[None]) -> None:
        await fill(
            pilot, name="thick or thin", crop="field", factor="density",
            replicates="4", weights="yield 2, taste 1", **{"arm-1": "thin=80g", "arm-2": "thick=120g"},
        )  # fmt: skip
        preview = form(pilot).query_one("#preview")
        await until(pilot, lambda: "difference" in str(preview.render()))
        assert "8 trays in all" in str(preview.render())
        await press(pilot, "f9")
        await until(pilot, lambda: "is set up" in said(pilot))
        assert pilot.app.screen.subject == TrialSubject("thick or thin")  # type: ignore[attr-defined]
        assert "thick or thin" in flat(pilot)

    async def begin(pilot: Pilot[None]) -> None:
        from tests.ui.forms_room import go

        await go(pilot, "trial_form")
        await story(pilot)

    walk(book, "trials", begin, size)
    assert [line.name for line in list_trials(book)] == ["thick or thin"]


def test_a_trial_of_lamps_is_shelves_from_a_list_and_is_sown_by_plan(book: Book) -> None:
    from tests.ui.forms_room import fill, form, go
    from tests.ui.steps import press, said, until

    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, "trial_form")
        await fill(
            pilot, name="lit", crop="field", factor="lamps", replicates="1", sow_at="tomorrow 18:00"
        )
        form(pilot).set_focus(form(pilot).entries["arm-1"].line)
        await press(pilot, "1/1", "tab", "r1 s2", "enter")
        texts = form(pilot).texts()
        assert (texts["arm-1"], texts["arm-2"]) == ("Rack 1/Shelf 1", "Rack 1/Shelf 2")
        await press(pilot, "f9")
        await until(pilot, lambda: "is set up" in said(pilot))
        assert "2 trays planned" in said(pilot)

    walk(book, "trials", story, (80, 24))


def test_the_form_says_what_is_wrong_beside_its_line(book: Book) -> None:
    from tests.ui.forms_room import fill, form, go
    from tests.ui.steps import press

    async def story(pilot: Pilot[None]) -> None:
        await go(pilot, "trial_form")
        await fill(pilot, name="x", crop="field", factor="density", **{"arm-1": "only one"})
        await press(pilot, "f9")
        assert "two arms or more" in form(pilot).entries["arm-2"].wrong
        await fill(pilot, name="", crop="", factor="", **{"arm-1": ""})
        await settle(pilot)

    walk(book, "trials", story, (80, 24))


def test_y_goes_to_the_trials_from_anywhere(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "y")
        assert type(pilot.app.screen).__name__ == "TrialsScreen"

    walk(book, "due", story, (80, 24))


def test_what_a_taster_types_is_read() -> None:
    assert read_said("7 6 8 a bit bitter").scores == {"taste": 7, "crunch": 6, "looks": 8}
    assert read_said("7 6 8 a bit bitter").words == "a bit bitter"
    assert read_said("7,5").scores == {"taste": 7.5}
    assert read_said("bitter").scores == {}


def test_arms_are_cut_at_semicolons_before_commas() -> None:
    assert read_parts("a, b") == ("a", "b")
    assert read_parts("long=blackout 2d, weighted 4d; short=blackout 1d") == (
        "long=blackout 2d, weighted 4d",
        "short=blackout 1d",
    )
