"""Every caution is shown where the work is, and has a source."""

from __future__ import annotations

import pytest

from logbook.actions.trays.till import Till
from logbook.cli.reader import chapter_words
from logbook.growing.cautions import CAUTIONS, LAST_WORD, Caution, shown_on, words_of
from logbook.ui.screens import SCREENS
from logbook.ui.till_drawing import TillDrawing
from tests.conftest import CommandLine

ABOUT = [each.about for each in CAUTIONS]
OF_PRODUCTS = {
    "chlorine": "bleach", "peroxide": "food peroxide", "peroxyacetic acid": "peracetic", "acids": "vinegar",
    "alcohol": "ethanol", "quats": "quat", "other products": "soap",
}  # fmt: skip


@pytest.mark.parametrize("caution", CAUTIONS, ids=ABOUT)
def test_each_has_a_source_and_stands_in_the_handbook(caution: Caution) -> None:
    text = chapter_words("cautions")
    assert LAST_WORD in text
    assert f"Source: {caution.source}." in text
    assert all(f"- {sentence}\n" in text for sentence in caution.words)


@pytest.mark.parametrize("caution", CAUTIONS, ids=ABOUT)
def test_each_is_shown_by_its_screens_and_commands(cli: CommandLine, caution: Caution) -> None:
    headings = {each.screen.heading for each in SCREENS.values()}
    for screen in filter(None, caution.screens.split(", ")):
        assert screen in headings
        assert {*caution.words, LAST_WORD} <= {*shown_on(screen)}
    for command in filter(None, caution.commands.split(", ")):
        told = " ".join(cli.done(*command.split(), "--help").out.split())
        assert all(sentence in told for sentence in (*caution.words, LAST_WORD)), command
    if product := OF_PRODUCTS.get(caution.about):
        sum_of = ("reckon", "dilute", "--stock", "5%", "--want", "100ppm", "--volume", "10L")
        said = cli.done(*sum_of, "--product", product).out
        assert all(sentence in said for sentence in caution.words)
    assert caution.screens or caution.commands or product


def test_the_till_begins_with_blade_and_cold() -> None:
    drawing = TillDrawing(78, False, "metric", None)  # type: ignore[arg-type]
    said = drawing.batch(Till((), (), {}, (), {}, {}))
    assert words_of("blades")[0] in said
    assert "5 °C (41 °F)" in said


def test_a_look_a_cleaning_and_a_circuit_say_theirs(cli: CommandLine) -> None:
    cli.now = "2026-04-01T08:00"
    cli.done("sow", "radish", "--trays", "2")
    told = cli.done("look", "101", "--mould", "spot")
    assert all(sentence in told.err for sentence in words_of("mould"))
    cleaned = cli.done("cleaning", "trays", "--method", "soak", "--with", "bleach")
    assert all(each in cleaned.err for each in words_of("disinfectants and mixtures"))
    circuits = cli.done("circuit").out
    assert all(each in circuits for each in words_of("electricity by water"))
