"""The watchdog of the line: hang-ups, terminations, a terminal that is gone or no longer reads.

Drafts are on disk already (see drafts.py), so all there is to do is to end: at once when asked,
and by a hard alarm when the loop hangs on a terminal that does not take its output.
"""

from __future__ import annotations

import os
import select
import signal
import sys
from collections.abc import Callable
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from textual.app import App

HARD_STOP_SECONDS = 3
LOOK_SECONDS = 2.0
GONE = select.POLLHUP | select.POLLERR | select.POLLNVAL


def hold_watchdog(app: App[None]) -> Callable[[], None]:
    """End the app cleanly on SIGHUP and SIGTERM, and when the terminal is gone.

    Gives a function that puts the old handlers back.
    """

    def end(_number: int, _frame: FrameType | None) -> None:
        signal.alarm(HARD_STOP_SECONDS)
        app.call_later(app.exit)

    old = {number: signal.signal(number, end) for number in (signal.SIGHUP, signal.SIGTERM)}

    def put_back() -> None:
        signal.alarm(0)
        for number, handler in old.items():
            signal.signal(number, handler)

    return put_back


def terminal_is_gone(handle: int) -> bool:
    """Whether what is behind a handle has hung up, also when no signal said so."""
    try:
        poll = select.poll()
        poll.register(handle, 0)
        return any(what & GONE for _, what in poll.poll(0))
    except (OSError, ValueError):
        return True


def watch_terminal(app: App[None]) -> None:
    """Look every two seconds whether the terminal is still there; end when it is not.

    In a browser's tab it is a pipe from the server. Whether there is a terminal at all is asked at
    the start: one that is gone no longer says that it is one.
    """
    try:
        handle = sys.__stdin__.fileno() if sys.__stdin__ else -1
    except (OSError, ValueError):
        return
    if handle < 0 or not (app.is_web or os.isatty(handle)):
        return

    def look() -> None:
        if terminal_is_gone(handle):
            signal.alarm(HARD_STOP_SECONDS)
            app.exit()

    app.set_interval(LOOK_SECONDS, look)
