"""A sensor's feed on standard input: read without end, written now and then, ended by SIGTERM."""

import os
import select
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from types import FrameType

import click

from logbook.actions.book import Book
from logbook.actions.room.air_feed import EVERY, SENSOR, Feed
from logbook.cli.printing import json_asked, say, tell
from logbook.cli.usage import INTERRUPTED
from logbook.growing.measures import seconds
from logbook.text import Refused, plural

CHUNK = 65_536
LONGEST_LINE = 10_000


def feed_air(book: Book, place: str, by: str | None, every: str | None) -> None:
    """Feed readings from standard input into the book until it ends or a signal comes."""
    gap = EVERY if every is None else timedelta(seconds=seconds(every, "time between writes"))
    if not EVERY <= gap <= timedelta(days=1):
        raise Refused("The feed writes once a minute at most and once a day at least.")
    feed = Feed(book, place, by or SENSOR)
    with _ended_by_signal() as ended:
        by_signal = _pump(feed, gap.total_seconds(), ended)
    feed.write()
    if not json_asked():
        say(_summary(feed))
    tell(feed)
    if by_signal == signal.SIGINT:
        raise click.exceptions.Exit(INTERRUPTED)
    if feed.bad and not feed.taken:
        raise click.exceptions.Exit(1)


def _pump(feed: Feed, gap: float, ended: int) -> int:
    """Read until the input ends or a signal comes, whose number it returns; 0 for none."""
    source = sys.stdin.fileno()
    lines = _Lines(feed)
    due = time.monotonic() + gap
    said = 0
    while True:
        wait = max(0.0, due - time.monotonic())
        ready, _, _ = select.select([source, ended], [], [], wait)
        if ended in ready:
            lines.end()
            return os.read(ended, 1)[0]
        if source in ready:
            piece = os.read(source, CHUNK)
            if not piece:
                lines.end()
                return 0
            lines.take(piece)
        if time.monotonic() >= due or feed.full:
            due = time.monotonic() + gap
            try:
                feed.write(whole=True)
            except Refused as refused:
                say(f"{refused} {plural(feed.held, 'reading')} wait; the feed tries again.")
            if feed.bad > said:
                say(f"{plural(feed.bad - said, 'bad line')} skipped; the last: {feed.last_bad}")
                said = feed.bad


class _Lines:
    """Cuts what comes into lines; one longer than any reading is counted and passed over."""

    def __init__(self, feed: Feed) -> None:
        self.feed = feed
        self.rest = b""
        self.passing = False

    def take(self, piece: bytes) -> None:
        *whole, self.rest = (self.rest + piece).split(b"\n")
        for line in whole:
            if self.passing:
                self.passing = False
            elif len(line) > LONGEST_LINE:
                self.feed.too_long()
            else:
                self.feed.take(line)
        if len(self.rest) > LONGEST_LINE:
            if not self.passing:
                self.feed.too_long()
            self.passing, self.rest = True, b""

    def end(self) -> None:
        if not self.passing:
            self.feed.take(self.rest)
        self.rest = b""


def _summary(feed: Feed) -> str:
    words = (
        f"{plural(feed.taken, 'line')} taken, {plural(feed.written, 'reading')} written in "
        f"{plural(feed.entries, 'entry', 'entries')}, {plural(feed.bad, 'bad line')} skipped"
    )
    if feed.known:
        words += f", {plural(feed.known, 'reading')} in the book already"
    if feed.lost:
        words += f", {plural(feed.lost, 'line')} lost while the book could not be written"
    return f"{words}; the last bad one: {feed.last_bad}" if feed.bad else f"{words}."


@contextmanager
def _ended_by_signal() -> Iterator[int]:
    """A pipe on which the number of the signal comes that tells the program to end."""
    read_end, write_end = os.pipe()
    os.set_blocking(write_end, False)

    def end(number: int, _frame: FrameType | None) -> None:
        os.write(write_end, bytes([number]))

    names = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP)
    before = [signal.signal(name, end) for name in names]
    try:
        yield read_end
    finally:
        for name, old in zip(names, before, strict=True):
            signal.signal(name, old)
        os.close(read_end)
        os.close(write_end)
