"""The program in a real terminal (a pty), what it draws followed by a terminal emulator."""

from __future__ import annotations

import fcntl
import os
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from types import TracebackType
from typing import Self

import pyte

ROOT = Path(__file__).resolve().parents[2]
PATIENCE = 30.0
"""Seconds in which something must have come up; reached only when it never does."""
PAD = {str(digit): f"\x1bO{chr(ord('p') + digit)}" for digit in range(10)} | {
    "\n": "\x1bOM",
    "+": "\x1bOk",
}
"""What the keys of a number pad send."""


class RealTerminal:
    """A terminal of some size with `python -m logbook` running in it."""

    def __init__(
        self,
        *arguments: str,
        size: tuple[int, int] = (80, 24),
        environ: Mapping[str, str] | None = None,
        program: Sequence[str] = ("-m", "logbook"),
    ) -> None:
        self.master, slave = os.openpty()
        self.size = size
        self.screen = pyte.Screen(*size)
        self.stream = pyte.ByteStream(self.screen)
        self.output = b""
        self._set_size(size)
        plain = {name: os.environ[name] for name in os.environ if not name.startswith(DROPPED)}
        plain |= {"TERM": "xterm-256color", "LANG": "C.UTF-8", "PYTHONPATH": str(ROOT)}
        self.process = subprocess.Popen(
            [sys.executable, *program, *arguments],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=ROOT,
            env=plain | dict(environ or {}),
            start_new_session=True,
        )
        os.close(slave)

    def __enter__(self) -> Self:
        """Give the terminal."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """End what still runs."""
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        with suppress(OSError):
            os.close(self.master)

    def _set_size(self, size: tuple[int, int]) -> None:
        columns, lines = size
        fcntl.ioctl(self.master, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))

    def resize(self, size: tuple[int, int]) -> None:
        """Make the window another size."""
        self.screen.resize(size[1], size[0])
        self._set_size(size)
        self.process.send_signal(signal.SIGWINCH)

    def type(self, keys: str) -> None:
        """Send keys, a letter each."""
        os.write(self.master, keys.encode())

    def pad(self, keys: str) -> None:
        """Send keys of the number pad."""
        self.type("".join(PAD[key] for key in keys))

    @property
    def text(self) -> str:
        """What is on the screen."""
        return "\n".join(self.screen.display)

    def read(self) -> bool:
        """Take in what comes next; False when nothing will come any more."""
        ready, _, _ = select.select([self.master], [], [], 1.0)
        if not ready:
            return self.process.poll() is None
        try:
            came = os.read(self.master, 65_536)
        except OSError:
            return False
        self.output += came
        self.stream.feed(came)
        return bool(came)

    def sees(self, *words: str, gone: str = "") -> None:
        """Wait until all of the words are on the screen, and others are gone from it."""
        end = time.monotonic() + PATIENCE
        while not all(word in self.text for word in words) or (gone and gone in self.text):
            if time.monotonic() > end or not self.read():
                raise AssertionError(f"waiting for {words}, not {gone!r}:\n{self.text}")

    def ends(self, within: float = PATIENCE) -> int:
        """Read until the program has ended; give its code, negative for a signal."""
        end = time.monotonic() + within
        while self.process.poll() is None and time.monotonic() < end:
            self.read()
        while self.read():
            pass
        return self.process.wait(max(0.1, end - time.monotonic()))


DROPPED = (
    "LC_",
    "LANG",
    "COLORTERM",
    "NO_COLOR",
    "TEXTUAL",
    "LOGBOOK_",
    "COLUMNS",
    "LINES",
    "TERM",
)
