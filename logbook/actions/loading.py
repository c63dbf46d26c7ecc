"""Loading what writing needs while nobody waits, so that the first act does not wait for it."""

from collections.abc import Callable, Iterator
from functools import partial
from importlib import import_module

MODULES = ("doing", "moving", "noticing", "striking", "weighing")
"""What the keys of the round do."""


def steps_for_writing() -> Iterator[Callable[[], object]]:
    """Steps, each of 0.1 s and less, after which a first act waits for nothing."""
    for module in MODULES:
        yield partial(import_module, f"logbook.actions.trays.{module}")
