"""What is loaded after the first screen is shown, so that the first act waits for nothing."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from logbook.ui.screens import SCREENS

if TYPE_CHECKING:
    from logbook.actions.book import Book


def steps_to_warm(book: Book | None) -> Iterator[Callable[[], object]]:
    """Steps to run in a thread one after another, each of 0.2 s and less.

    Garbage is collected from then on, but not what the start brought.
    """
    from logbook.actions.loading import steps_for_writing

    started = not gc.isenabled()
    if started:
        yield gc.collect
        gc.enable()
    yield from steps_for_writing(book)
    for each in SCREENS.values():
        if each.daily:
            yield partial(getattr, each, "screen")
    if started:
        yield gc.collect
        gc.freeze()
