"""The trials of the sample: one decided on good evidence, one that runs and claims nothing."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import show_template
from logbook.actions.trials.finding import list_trials
from logbook.actions.trials.judging import judge_trial
from logbook.growing.trials.kept import Decision
from logbook.store.reads.trials import read_said, read_trials
from tests.conftest import SampleMaker


@pytest.fixture(scope="module", params=["2026-04-14T07:45", "2026-10-25T13:00"])
def book(
    request: pytest.FixtureRequest, sample_book: SampleMaker,
    tmp_path_factory: pytest.TempPathFactory,
) -> Book:  # fmt: skip
    now = datetime.fromisoformat(request.param).replace(tzinfo=ZoneInfo("Europe/Lisbon"))
    return sample_book(tmp_path_factory.mktemp("sample") / "room.book", now, "Europe/Lisbon")


def test_there_is_one_trial_of_each_kind(book: Book) -> None:
    assert {line.name: line.state for line in list_trials(book)} == {
        "thicker broccoli": "decided",
        "heavier weight": "running",
    }
    assert all(line.factor != "lamps" for line in list_trials(book))


def test_the_decided_one_rests_on_its_evidence(book: Book) -> None:
    view = judge_trial(book, "thicker")
    assert view.judged is not None
    assert view.judged.design == "blocks"
    assert view.judged.shown
    assert view.judged.pairs[0].a == "thicker"
    assert len(view.records) == 14
    assert view.tasting is not None
    assert len(view.tasting.tasters) == 4
    result = view.tasting.aspects[0].ranks
    assert result is not None
    assert not result.shown
    assert [each.fact for each in view.confounders.differences] == ["place along the shelf"]
    assert "thicker cut more than usual" in view.advice


def test_what_was_adopted_links_to_its_version(book: Book) -> None:
    template = show_template(book, "broccoli")
    with book.reading() as reading:
        trial = next(each for each in read_trials(reading) if each.name == "thicker broccoli")
        decision = read_said(reading, Decision, trial.id)[0]
    assert decision.version_id == template.versions[0].version_id
    assert template.template.seed_grams == 25
    assert 'trial "thicker broccoli"' in template.versions[0].why


def test_the_running_one_claims_nothing(book: Book) -> None:
    view = judge_trial(book, "heavier")
    assert view.waiting == 2
    assert view.judged is None
    assert view.why_not.startswith("No verdict before the planned end: 2 of 8 trays")
