"""The program as it is, on a clock that jumps: `python -m tests.bench.jumping --now WHEN …`.

SIGUSR1 moves the clock on by a minute, and the app with it.
"""

from __future__ import annotations

import signal
from datetime import timedelta
from pathlib import Path

from logbook.__main__ import main
from logbook.clock import FixedClock
from logbook.ui import app


class JumpingApp(app.LogbookApp):
    """The app, whose clock a signal moves on."""

    CSS_PATH = str(Path(app.__file__).with_name("logbook.tcss"))

    def on_mount(self) -> None:
        """Wait for the signal."""
        signal.signal(signal.SIGUSR1, lambda *_: self.call_later(self._jump))

    def _jump(self) -> None:
        clock = self.book.clock
        assert isinstance(clock, FixedClock), "--now gives a clock that stands"
        clock.at += timedelta(minutes=1)
        self.tick()


if __name__ == "__main__":
    app.LogbookApp = JumpingApp  # type: ignore[misc]
    main()
