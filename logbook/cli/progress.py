"""Progress of long work: one line on standard error, where that is a terminal."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click


@contextmanager
def progress(label: str) -> Iterator[Callable[[int, int], None]]:
    """Something to tell how much is done of how much; silent where nobody watches."""
    if not sys.stderr.isatty():
        yield lambda _done, _whole: None
        return
    shown = -1

    def tell(done: int, whole: int) -> None:
        nonlocal shown
        percent = 100 * done // whole if whole else 100
        if percent != shown:
            shown = percent
            click.echo(f"\r{label} {percent} %", nl=False, err=True)

    try:
        yield tell
    finally:
        if shown >= 0:
            click.echo("\r" + " " * (len(label) + 6) + "\r", nl=False, err=True)
