"""What is written is never called refused, and what is no amount is never taken for one."""

from __future__ import annotations

import io
import sys

import pytest

from logbook.actions.book import Book
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.page import page
from tests.conftest import CommandLine


class Full(io.StringIO):
    """Standard output on a disk without room, or a pipe that nobody reads."""

    def __init__(self, fault: OSError) -> None:
        super().__init__()
        self.fault = fault

    def write(self, _text: str) -> int:
        raise self.fault


@pytest.mark.parametrize(
    ("fault", "why"),
    [
        (OSError(28, "No space left on device"), "No space left on device"),
        (BrokenPipeError(32, "Broken pipe"), "standard output is closed"),
        (None, "standard output is closed"),
    ],
)
def test_what_cannot_be_printed_is_written_all_the_same(
    cli: CommandLine, book: Book, monkeypatch: pytest.MonkeyPatch, fault: OSError | None, why: str
) -> None:
    def ran(*words: str) -> tuple[int, str]:
        said = io.StringIO()
        with monkeypatch.context() as patch:
            patch.setattr(sys, "stdout", None if fault is None else Full(fault))
            patch.setattr(sys, "stderr", said)
            code = cli(*words).code
        return code, said.getvalue()

    assert ran("jot", "room", "fan off") == (3, f"Written, but could not be printed: {why}.\n")
    assert ran("jot", "room", "fan off", "--json")[0] == 3
    assert [line.note for line in page(book)] == ["fan off"] * 2
    # one that writes nothing is not said to have written
    assert ran("racks")[0] == (0 if fault is None else 1)
    assert "Written" not in ran("racks")[1]


@pytest.mark.parametrize("text", ["", "-5g", "nan", "1e999"])
@pytest.mark.parametrize(
    "words",
    [
        "sow radish --trays 1 --dry --grams {}", "weigh 101 {}", "did water 101 --amount {}",
        "look 101 --height {}", "circuit north --breaker {} --volts 230",
        "circuit north --breaker 16 --volts 230 --other {}",
        "lamps --place Rack_1 --lamps {} --watts 18", "lamps --place Rack_1 --lamps 2 --watts {}",
        "reckon circuit --amps {} --breaker 16 --volts 230",
        "reckon circuit --amps 9 --breaker {} --volts 230",
        "reckon power --watts {} --hours 16", "reckon light --ppfd {}",
        "trial new x --crop radish --factor density --arm a={} --arm b=120",
    ],
)  # fmt: skip
def test_what_is_no_amount_is_refused(cli: CommandLine, words: str, text: str) -> None:
    given = [word.format(text).replace("Rack_1", "Rack 1") for word in words.split()]
    assert cli(*given).refusal
    assert cli.done("page", "--json").json["entries"] == []


def test_readings_are_told_apart_or_refused(cli: CommandLine) -> None:
    where = ("light", "--place", "Rack 1/Shelf 1")
    cli.done(*where, "--ppfd", "200 180 190 185 195")
    assert "PPFD 190 µmol/m²/s" in cli.done(*where).out
    for text in ("9,000", "9 000", "187,5"):
        assert "can be read in two ways" in cli(*where, "--lux", text, "--lamp", "sun").refusal


def test_a_reading_far_outside_its_neighbours_is_asked_about_once(cli: CommandLine) -> None:
    given = ("light", "--place", "Rack 1/Shelf 1", "--ppfd", "190", "1900", "195", "188")
    assert cli(*given).refusal == (
        "1900 where the others are about 190: is that right? "
        "Nothing is written; add --sure if it is right."
    )
    assert "no light reading yet" in cli.done("light", "--place", "Rack 1/Shelf 1").out
    assert "PPFD 618" in cli.done(*given, "--sure").out


@pytest.mark.parametrize(
    ("near", "far", "asked"),
    [
        ("air 21.4 63", "air 31.5 63",
         "Is the temperature really 31.5 °C? The last readings here are about 21.4 °C."),
        ("air 21.4 63", "air 21.4 6",
         "Is the humidity really 6 %? The last readings here are about 63 %."),
        ("water --ph 6.1", "water --ph 9.1 --ec 1.2",
         "Is the pH really 9.1? The last readings here are about 6.1."),
        ("water --ec 1.2", "water --ec 12",
         "Is the EC really 12 mS/cm? The last readings here are about 1.2 mS/cm."),
        ("did water 101 --amount 300ml", "did water 101 --amount 3000ml",
         "Is the amount of water per tray really 3000 ml? The last readings here are about 300 ml."),
        ("light --place Rack_1/Shelf_1 --ppfd 190", "light --place Rack_1/Shelf_1 --ppfd 1900",
         "Is the light reading really 1900 µmol/m²/s? The last readings here are about 190 µmol/m²/s."),
    ],
)  # fmt: skip
def test_readings_of_one_place_are_neighbours(
    cli: CommandLine, near: str, far: str, asked: str
) -> None:
    cli.done("sow", "field test", "--trays", "1", "--dry", "--at", "2026-04-01T08:00")

    def given(words: str) -> list[str]:
        return [word.replace("_", " ") for word in words.split()]

    cli.done(*given(near))
    assert cli(*given(far)).refusal == f"{asked} Nothing is written; add --sure if it is right."
    cli.done(*given(far), "--sure")
    cli.done(*given(far))  # it is near the last one now


def test_without_readings_what_the_crop_wants_is_the_neighbour(cli: CommandLine) -> None:
    cli.done("sow", "radish", "--trays", "1", "--at", "2026-04-12T08:00")
    assert "The crops here want about" in cli("air", "42", "63").refusal
    cli.done("air", "24", "63", "--place", "Rack 2")  # where nothing grows
    cli.done("did", "water", "101", "--amount", "300ml")
    cli.done("sow", "radish", "--trays", "1", "--at", "2026-04-12T09:00")
    # of how much the crop says nothing, so it is held against the other trays
    assert (
        "last readings on other trays are about 300 ml"
        in cli("did", "water", "102", "--amount", "3 L").refusal
    )


def test_an_option_named_after_a_unit_is_in_that_unit(cli: CommandLine, book: Book) -> None:
    cli.done("room", "--units", "us")
    cli.done("sow", "field test", "--trays", "1", "--dry", "--grams", "100")
    assert batch_page(book, "1").seed_grams == 100
    sowing = cli.done("page", "--json").json["entries"][-1]["id"]
    cli.done("strike", str(sowing), "--why", "misread", "--grams", "110")
    cli.done("weigh", "101", "10", "--sure")
    weight = cli.done("page", "--json").json["entries"][-1]
    assert weight["grams"] == 283.5, "a weight alone is in the room's ounces"
    cli.done("strike", str(weight["id"]), "--why", "misread", "--grams", "290")
    assert cli.done("page", "--json").json["entries"][-1]["grams"] == 290
