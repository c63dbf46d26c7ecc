"""Opening the app on the sample."""

from collections.abc import Callable
from pathlib import Path
from typing import Literal

import click

from logbook.cli.options import Options
from logbook.cli.screen import has_screen, run_app
from logbook.store.file.leftovers import demo_folder, remove_quietly
from logbook.text import Refused


def open_demo(
    options: Options, top: Callable[[], click.Context], keep: Path | None, tour: bool | None
) -> None:
    """Open a fresh sample book; without a terminal print its round. `tour` None offers it once."""
    from logbook.actions.care.begin import local_zone_name
    from sample_db import build

    if keep is not None and keep.exists():
        raise Refused(f"There is already a file at {keep}; it was not touched.")
    folder = demo_folder()
    try:
        path = keep or folder / "sample.book"
        zone = local_zone_name()
        clock = options.clock(zone)
        book = build(path, clock.now(), zone=zone, clock=clock)
        book.by = options.writer
        if has_screen():
            from logbook.ui.tour import first_time

            offer: Literal["offer", "none"] = "offer" if tour is None and first_time() else "none"
            run_app(book, top, tour="begin" if tour else offer)
            return
        from logbook.actions.trays.round import the_round
        from logbook.cli.trays.round import round_words

        click.echo("\n".join(round_words(the_round(book), book)))
    finally:
        remove_quietly(folder)
