"""The options of what goes onto paper: how wide as plain text, or into which page."""

import click

from logbook.cli.files import FileName

COLUMNS = click.option(
    "--columns",
    type=click.IntRange(36, 200),
    default=80,
    help="Characters across the paper: 80 or 42.",
)
PAGE = click.option(
    "--html",
    "page",
    type=FileName(),
    metavar="FILE",
    help="Write a page for a printer to this file.",
)
