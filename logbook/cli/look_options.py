"""The options that say what a look saw; shared by look and strike."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypedDict

import click

from logbook.growing.looks import MOULDS, Look
from logbook.growing.quantities import EMERGED, HEIGHT

if TYPE_CHECKING:
    from logbook.actions.book import Book

_OPTIONS = (
    click.option("--emerged", metavar="PERCENT", help="How many seeds have come up."),
    click.option("--height", metavar="LENGTH", help="Like 4cm."),
    click.option("--mould", type=click.Choice(MOULDS), help="Mould, if any."),
    click.option("--where", default="", help="Where the mould is."),
    click.option("--wilting/--not-wilting", default=None, help="Whether it hangs its head."),
    click.option("--open/--closed", "cotyledons", default=None, help="Seed leaves."),
    click.option("--true-leaves/--no-true-leaves", default=None, help="First true leaves."),
    click.option("--stem", default="", metavar="COLOUR", help="Stem colour."),
    click.option("--hulls/--no-hulls", default=None, help="Hulls still on."),
    click.option("--uneven", default="", metavar="WHERE", help="Uneven spots."),
    click.option("--ready-sign", "sign", default="", help="The ready sign that was seen."),
)


class LookGiven(TypedDict):
    """What the options were given as."""

    emerged: str | None
    height: str | None
    mould: str | None
    where: str
    wilting: bool | None
    cotyledons: bool | None
    true_leaves: bool | None
    stem: str
    hulls: bool | None
    uneven: str
    sign: str


def look_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options of a look."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


def look_given(book: Book, given: LookGiven) -> Look:
    """Read what the options say as a look; raise Refused for what is no number."""
    return Look(
        emerged_percent=EMERGED.given(given["emerged"]),
        height_mm=HEIGHT.given(given["height"], book.units),
        mould=given["mould"] or "",
        mould_where=given["where"],
        wilting=given["wilting"],
        cotyledons_open=given["cotyledons"],
        true_leaves=given["true_leaves"],
        stem_colour=given["stem"],
        hulls_on=given["hulls"],
        uneven=given["uneven"],
        sign=given["sign"],
    )
