"""A program on a pseudo-terminal: its keys, what it writes and when, its memory and CPU time."""

from __future__ import annotations

import contextlib
import fcntl
import os
import pty
import select
import signal
import struct
import tempfile
import termios
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Self

import pyte

from tests.bench.processes import ROOT

COMPILED = Path(tempfile.gettempdir()) / "logbook-bench" / "compiled"


def installed() -> dict[str, str]:
    """Give the environment of a program whose modules are compiled, as an installed one's are."""
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(COMPILED)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


@dataclass
class Burst:
    """What a program wrote: pieces with the moment at which each was read."""

    pieces: list[tuple[float, bytes]] = field(default_factory=list)
    cpu: float = 0.0
    """CPU time of the program when the last piece was read, in s since it began."""

    @property
    def data(self) -> bytes:
        """Everything, in one."""
        return b"".join(data for _, data in self.pieces)

    @property
    def first(self) -> float:
        """When the first piece was read."""
        return self.pieces[0][0]

    @property
    def last(self) -> float:
        """When the last piece was read."""
        return self.pieces[-1][0]


class Terminal:
    """A program in a terminal of 80×24 with 256 colours, as ssh gives it."""

    def __init__(
        self,
        arguments: Sequence[str],
        size: tuple[int, int] = (80, 24),
        cwd: Path = ROOT,
        **variables: str,
    ) -> None:
        """Start the program. Its output is drawn on a screen of our own when that is asked for."""
        self.size = size
        self.screen = pyte.Screen(*size)
        self._stream = pyte.ByteStream(self.screen)
        self._drawn = 0
        self.burst = Burst()
        environment = {
            name: value
            for name, value in installed().items()
            if name not in ("COLORTERM", "NO_COLOR", "FORCE_COLOR", "TERM_PROGRAM")
            and not name.startswith(("TEXTUAL", "LOGBOOK_"))
        }
        environment |= {"TERM": "xterm-256color", "LANG": "C.UTF-8", **variables}
        self.began = time.perf_counter()
        self.pid, self.handle = pty.fork()
        if self.pid == 0:
            try:
                fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
                os.chdir(cwd)
                os.execve(arguments[0], list(arguments), environment)  # noqa: S606
            finally:
                os._exit(127)

    def _read(self, seconds: float) -> bool:
        """Read what comes within some seconds; tell whether anything did."""
        if not select.select([self.handle], [], [], max(0.0, seconds))[0]:
            return False
        try:
            data = os.read(self.handle, 65536)
        except OSError as fault:
            raise EOFError("the program has ended") from fault
        self.burst.pieces.append((time.perf_counter(), data))
        self.burst.cpu = self.cpu
        return True

    def read(self, quiet: float = 0.25, most: float = 10.0, least: float = 0.0) -> Burst:
        """Read until nothing has come for `quiet` seconds, `least` at the earliest; take it out."""
        began = time.perf_counter()
        while time.perf_counter() - began < most:
            if not self._read(quiet) and time.perf_counter() - began >= least:
                break
        burst, self.burst = self.burst, Burst()
        self._drawn = 0
        self._stream.feed(burst.data)
        return burst

    def press(self, keys: str) -> float:
        """Press keys; give the moment."""
        moment = time.perf_counter()
        os.write(self.handle, keys.encode())
        return moment

    def key(self, keys: str, quiet: float = 0.12) -> tuple[float, Burst]:
        """Press a key and read what it paints; give the moment of pressing and what came."""
        self.read(quiet=0.02)
        moment = self.press(keys)
        if not self._read(10.0):
            raise TimeoutError(f"nothing was painted for the key {keys!r}:\n{self.text}")
        return moment, self.read(quiet)

    def wait_for(self, shown: Callable[[Terminal], bool], most: float = 30.0) -> float:
        """Read until the screen shows something; give the moment of the piece that made it so.

        Pieces are drawn only while the program waits, so that drawing takes it no time.
        """
        if shown(self):
            return time.perf_counter()
        end = time.perf_counter() + most
        while time.perf_counter() < end:
            if self._read(0.01):
                continue
            for moment, data in self.burst.pieces[self._drawn :]:
                self._stream.feed(data)
                self._drawn += 1
                if shown(self):
                    return moment
        words = "\n".join(self.screen.display)
        raise TimeoutError(f"not shown within {most} s:\n{words}")

    def taken(self) -> Burst:
        """Take out what was read and drawn so far."""
        burst, self.burst = self.burst, Burst()
        for _, data in burst.pieces[self._drawn :]:
            self._stream.feed(data)
        self._drawn = 0
        return burst

    @property
    def text(self) -> str:
        """What the screen shows."""
        return "\n".join(self.screen.display)

    @property
    def rss(self) -> int:
        """Resident memory, in kB."""
        return _status(self.pid, "VmRSS:")

    @property
    def cpu(self) -> float:
        """CPU time so far, of all threads, in s, by the clock that Linux keeps of a process."""
        return time.clock_gettime((~self.pid << 3) | 2)

    def end(self) -> None:
        """Kill the program."""
        with contextlib.suppress(ProcessLookupError):
            os.kill(self.pid, signal.SIGKILL)
        os.close(self.handle)
        os.waitpid(self.pid, 0)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.end()


def _status(pid: int, name: str) -> int:
    with open(f"/proc/{pid}/status") as file:  # noqa: PTH123
        return next(int(line.split()[1]) for line in file if line.startswith(name))
