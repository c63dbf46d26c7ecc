"""Examples of each command, shown under its help and in the manual page."""

import re
from functools import cache
from itertools import groupby
from pathlib import Path

import click

from logbook.growing.cautions import shown_by

_COMMAND = re.compile(
    r"logbook (?:--(?:book|by) \S+ )?((?:templates|places|trial|reckon|sheet|seed|deliveries|orders|customer|mix|cold|costs|records) [a-z][a-z-]*|[a-z][a-z-]*)"
)


def _command_of(line: str) -> str:
    found: str = _COMMAND.findall(line)[0]
    return found


@cache
def examples() -> dict[str, tuple[str, ...]]:
    """Those of each command by its words, from the text file beside this one."""
    lines = Path(__file__).with_suffix(".txt").read_text(encoding="utf-8").splitlines()
    found = {name: tuple(some) for name, some in groupby(lines, _command_of)}
    return found | {"trial": found["trial list"], "reckon": found["reckon air"][:1]}


def show_examples(name: str, command: click.Command) -> None:
    """Put the examples under a command's help, and under those of its own subcommands."""
    lines, minded = examples().get(name), shown_by(name)
    if command.epilog is None:
        parts = [" ".join(("Take care.", *minded))] if minded else []
        if lines:
            head = "Example:" if len(lines) == 1 else "Examples:"
            parts.insert(0, "\n".join(["\b", head, *(f"  {line}" for line in lines)]))
        command.epilog = "\n\n".join(parts) or None
    for below in getattr(command, "commands", {}).values():
        show_examples(f"{name} {below.name}", below)
