"""Options whose values are several words: `--ppfd 200 180 190`, `--volume 10 L`."""

import re
from collections.abc import Iterable, Sequence
from typing import Any

import click

from logbook.text import Refused

_NUMBER = re.compile(r"[-+−]?[.,]?\d")


class ManyOption(click.Option):
    """An option with as many values as follow it; it may also be repeated."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{"multiple": True, "metavar": "NUMBER …", **kwargs})


class WordyCommand(click.Command):
    """A command without positional arguments: what follows an option's value belongs to it.

    After a ManyOption each word with a digit begins a value of its own. Any other word is joined
    to the value before it, so a unit may stand apart: `--amps 0.16 A 0.35 A`, `--tray 10 x 20 in`.
    """

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Join and repeat words before click reads them."""
        return super().parse_args(ctx, self._gathered(args))

    def _gathered(self, args: Sequence[str]) -> list[str]:
        options = {
            name: option
            for option in self.params
            if isinstance(option, click.Option)
            for name in option.opts
        }
        gathered: list[str] = []
        current = ""
        filled = False
        for word in args:
            name, written, _ = word.partition("=")
            if word.startswith("-") and not _NUMBER.match(word):
                if current and not filled:
                    raise click.BadOptionUsage(current, f"Option '{current}' needs a value.")
                option = options.get(name)
                takes_value = option is not None and not option.is_flag and not option.count
                current, filled = (name if takes_value else ""), bool(written)
                gathered.append(word)
            elif not current:
                gathered.append(word)
            elif not filled:
                gathered.append(word)
                filled = True
            elif isinstance(options[current], ManyOption) and re.search(r"\d", word):
                gathered += [current, word]
            else:
                gathered[-1] += f" {word}"
        return gathered


def many_values(texts: Iterable[str], what: str) -> list[str]:
    """Split values that were written with commas, semicolons or spaces between them.

    "200,180,190", "200 180 190" and "200;180" are lists. "187,5", "9,000" and "9 000" alone are
    refused, because each can be one number or two.
    """
    values: list[str] = []
    for text in texts:
        pair = re.fullmatch(r"\s*(\d+)(?:,(\d+)|\s+(\d{3}))\s*", text)
        if pair:
            first, second = pair[1], pair[2] or pair[3]
            one = first + ("" if len(second) == 3 else ".") + second
            raise Refused(
                f'The {what} "{text.strip()}" can be read in two ways; '
                f"write {one}, or {first} {second} as two."
            )
        parts = re.split(r"[,;]|(?<=\S)\s+(?=[-+.]?\d)", text)
        values += [part.strip() for part in parts if part.strip()] or [text]
    return values
