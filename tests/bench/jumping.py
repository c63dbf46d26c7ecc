"""The app on a clock that jumps: `python -m tests.bench.jumping --book PATH --now ignored`.

SIGUSR1 moves the clock on by a minute, and the app with it.
"""

from __future__ import annotations

import argparse
import signal
from datetime import timedelta
from pathlib import Path

from logbook.actions.book import open_book
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from tests.bench.ten_years import END


def run(path: Path) -> None:
    clock = FixedClock(END)
    app = LogbookApp(open_book(path, clock, "ab"))

    def jump() -> None:
        clock.at += timedelta(minutes=1)
        app.tick()

    signal.signal(signal.SIGUSR1, lambda *_: app.call_later(jump))
    app.run(mouse=False)


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--book", type=Path)
    parser.add_argument("--now")
    run(parser.parse_args().book)
