"""The options that say what a look saw; shared by look and strike."""

from collections.abc import Callable, Mapping
from typing import Any

import click

from logbook.actions.book import Book
from logbook.growing.quantities import EMERGED, HEIGHT
from logbook.growing.trays.looks import MOULDS, Look

_OPTIONS = (  # named after the fields of a Look
    click.option(
        "--emerged", "emerged_percent", metavar="PERCENT", help="How many seeds have come up."
    ),
    click.option("--height", "height_mm", metavar="LENGTH", help="Height, like 4cm."),
    click.option("--mould", type=click.Choice(MOULDS), help="Mould, if any."),
    click.option("--where", "mould_where", default="", help="Where the mould is."),
    click.option("--wilting/--not-wilting", default=None, help="Whether it is wilting."),
    click.option(
        "--open/--closed", "cotyledons_open", default=None, help="Whether the seed leaves are open."
    ),
    click.option(
        "--true-leaves/--no-true-leaves", default=None, help="Whether the first true leaves show."
    ),
    click.option("--stem", "stem_colour", default="", metavar="COLOUR", help="Stem colour."),
    click.option(
        "--hulls/--no-hulls", "hulls_on", default=None, help="Whether hulls are still on."
    ),
    click.option("--uneven", default="", metavar="WHERE", help="Where it is uneven."),
    click.option("--ready-sign", "sign", default="", help="The ready sign that was seen."),
)


def look_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options of a look."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


def look_given(book: Book, given: Mapping[str, Any]) -> Look:
    """Read what the options say as a look; raise Refused for what is no number."""
    read = {
        "emerged_percent": EMERGED.given(given["emerged_percent"]),
        "height_mm": HEIGHT.given(given["height_mm"], book.units),
        "mould": given["mould"] or "",
    }
    return Look(**{**given, **read})
