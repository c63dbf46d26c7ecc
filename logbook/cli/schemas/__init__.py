"""What each command prints with --json, as JSON schemas that tests hold to the output."""

from __future__ import annotations

from typing import Any

import click

from logbook.cli.answers import schema_of_views
from logbook.cli.app import top_context
from logbook.cli.listing import every_command, words_of
from logbook.cli.printing import JsonOption
from logbook.cli.schemas import sums

WRITTEN: dict[str, dict[str, Any]] = {
    "reckon light": sums.LIGHT,
    "reckon power": sums.POWER,
    "reckon circuit": sums.CIRCUIT,
    "reckon air": sums.AIR,
    "reckon dilute": sums.DILUTE,
    "reckon seed": sums.SEED,
    "reckon compare": sums.COMPARE,
    "reckon replicates": sums.REPEATS,
    "reckon triangle": sums.TRIANGLE,
    "reckon ranks": sums.RANKS,
}
"""By the words of the command. Keys may be added to what is printed; none is ever taken away."""


def names() -> list[str]:
    """Every command that has --json."""
    return [
        words_of(ctx)
        for ctx, command in every_command(top_context())
        if _views(command) is not None
    ]


def _views(command: click.Command) -> tuple[str, ...] | None:
    for option in command.params:
        if isinstance(option, JsonOption):
            return option.views
    return () if any("--json" in option.opts for option in command.params) else None


def schema_of(name: str) -> dict[str, Any]:
    """A command's schema with its head."""
    views = next(
        _views(command) for ctx, command in every_command(top_context()) if words_of(ctx) == name
    )
    title = f"logbook {name} --json"
    if views:
        return schema_of_views(title, views)
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title}
    return head | WRITTEN[name]
