"""Options with several values and with units that stand apart."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner

from logbook.cli.wordy import ManyOption, WordyCommand, many_values
from logbook.text import Refused


@click.command(cls=WordyCommand)
@click.option("--ppfd", cls=ManyOption)
@click.option("--volume", "-v")
@click.option("--json", "as_json", is_flag=True)
def told(ppfd: tuple[str, ...], volume: str | None, as_json: bool) -> None:
    """Say what arrived."""
    click.echo(f"{list(ppfd)} {volume} {as_json}")


@pytest.mark.parametrize(
    ("line", "arrived"),
    [
        ("--ppfd 200 180 190", "['200', '180', '190'] None False"),
        ("--ppfd 200 180 --json --volume 10 L", "['200', '180'] 10 L True"),
        ("--ppfd 200 --ppfd 180", "['200', '180'] None False"),
        ("--ppfd=200 180", "['200', '180'] None False"),
        ("--ppfd 200,180", "['200,180'] None False"),
        ("--ppfd 200 µmol 180 µmol", "['200 µmol', '180 µmol'] None False"),
        ("--ppfd -5 −6 -.5", "['-5', '−6', '-.5'] None False"),
        ("-v 10 L --ppfd 1", "['1'] 10 L False"),
        ("--volume=10 x 20 in", "[] 10 x 20 in False"),
        ("", "[] None False"),
    ],
)
def test_words_after_an_option_belong_to_it(line: str, arrived: str) -> None:
    result = CliRunner().invoke(told, line.split())
    assert result.exit_code == 0, result.output
    assert result.output.strip() == arrived


@pytest.mark.parametrize(
    "line", ["stray", "--json stray", "--ppfd", "--nonsense 3", "--ppfd --json"]
)
def test_what_belongs_nowhere_is_wrong_usage(line: str) -> None:
    assert CliRunner().invoke(told, line.split()).exit_code == 2


def test_lists_written_with_commas_are_split() -> None:
    assert many_values(["200,180,190", "170;160", "187.5", "95, 88"], "reading") == [
        "200", "180", "190", "170", "160", "187.5", "95", "88",
    ]  # fmt: skip


def test_a_lone_decimal_comma_is_asked_about() -> None:
    with pytest.raises(Refused, match=r"write 187\.5, or 187 5"):
        many_values(["187,5"], "reading")
