"""A new book speaks of light, air and water before anybody has written a wish."""

from __future__ import annotations

from pathlib import Path

from tests.conftest import CommandLine

RUNNER = 'crop = "Runner beans"\n[[stages]]\nname = "light"\nlight = "lit"\n[cut]\nbest = "9d"\n'


def test_cautions_speak_in_a_new_book(cli: CommandLine) -> None:
    # given a crop that likes it warm
    cli.done("sow", "basil", "--trays", "1", "--place", "Rack 1/Shelf 1")
    # when the room is cold, the lamp is weak and the water is hard
    for cli.now in ("2026-04-14T08:00", "2026-04-14T10:00"):
        cli.done("air", "15C", "80%", "--place", "Rack 1")
    cli.done("light", "--place", "Rack 1/Shelf 1", "--ppfd", "60", "70", "65")
    water = cli.done("did", "water", "101", "--ph", "8.1", "--ec", "2.4").err
    # then each is said
    assert "too cold" in cli.done("air", "--place", "Rack 1").out
    assert "more lamps, or lamps nearer" in cli.done("light", "--place", "Rack 1/Shelf 1").out
    assert "wanted 5.5 to 6.5" in water
    assert "wanted at most 1.6" in water


def test_what_must_not_be_eaten_is_refused_by_every_command(
    cli: CommandLine, tmp_path: Path
) -> None:
    file = tmp_path / "runner.toml"
    file.write_text(RUNNER, encoding="utf-8")
    for command in (
        ("sow", "tomato", "--trays", "2"),
        ("templates", "copy", "radish", "tobacco"),
        ("templates", "put", str(file)),
        (
            "trial",
            "new",
            "seeds",
            "--crop",
            "aubergine",
            "--factor",
            "density",
            "--arm",
            "10g",
            "--arm",
            "12g",
        ),
    ):
        refusal = cli(*command).refusal
        assert "can't be grown as a microgreen" in refusal, command
        assert " Source: " in refusal
    cli.done("templates", "copy", "cress", "pepper cress")
