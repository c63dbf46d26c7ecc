"""A book on a server under load: many clients at once, and a server that is killed at random moments.

Run by hand, with PostgreSQL installed:
    python -m tests.bench.server crowd [CLIENTS [SECONDS [TRAYS]]]
    python -m tests.bench.server kills [TIMES [SEED]]
The floor of `crowd` is one client alone on the same server in the same run, and the file.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import SystemClock
from logbook.store.server.address import Address, address_of, connect
from logbook.text import Refused

SCRIPT = Path(__file__).parents[2] / ".ci" / "postgres"
A_BATCH = 100


class Server:
    """A private server that can be killed and started again."""

    def __init__(self, folder: Path, *, synced: bool = True) -> None:
        said = subprocess.run([SCRIPT, "start", folder], check=True, capture_output=True, text=True)
        self.folder, self.url = folder, said.stdout.strip().replace("+psycopg", "")
        self.port = self.url.rpartition(":")[2].partition("/")[0]
        self.bin = max(
            Path("/usr/lib/postgresql").glob("*/bin"), key=lambda each: int(each.parts[4])
        )
        if synced:
            self.kill()
            self.start()

    def new(self, name: str) -> Address:
        """An empty database."""
        with connect(address_of(self.url), 15) as connection:
            connection.execute(f"CREATE DATABASE {name} TEMPLATE template0")
        return address_of(f"{self.url.rpartition('/')[0]}/{name}")

    def kill(self) -> None:
        """End every process of it at once, as a power cut of that machine does."""
        pid = (self.folder / "data" / "postmaster.pid").read_text().split()[0]
        said = subprocess.run(["pgrep", "-P", pid], check=False, capture_output=True, text=True)
        every = [pid, *said.stdout.split()]
        subprocess.run(["kill", "-KILL", *every], check=False, stderr=subprocess.DEVNULL)
        while any(Path(f"/proc/{each}").exists() for each in every):
            time.sleep(0.02)

    def start(self) -> None:
        """Start it at the same port, synced."""
        user = ["runuser", "-u", "postgres", "--"] if os.getuid() == 0 else []
        options = f"-p {self.port} -c listen_addresses=127.0.0.1 -c unix_socket_directories=''"
        subprocess.run(
            [*user, self.bin / "pg_ctl", "-D", self.folder / "data", "-l", self.folder / "data" / "log",
             "-s", "-w", "-t", "60", "-o", options, "start"],
            check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip

    def stop(self) -> None:
        """End it and take its folder away."""
        subprocess.run([SCRIPT, "stop", self.folder], check=True)


@contextmanager
def server() -> Iterator[Server]:
    """A server that is taken away at the end."""
    found = Server(Path(tempfile.mkdtemp(prefix="logbook-bench-server-")))
    try:
        yield found
    finally:
        found.stop()


def filled(where: Path | Address, trays: int) -> Book:
    """A book with so many growing trays."""
    book = begin_book(where, BeginDraft(racks=1, shelves=1), SystemClock(), "bench")
    for number in range(0, trays, A_BATCH):
        name = f"Long shelf {number}"
        add_place(book, PlaceDraft(name, "shelf", slots=A_BATCH))
        sow(book, SowDraft("radish", A_BATCH, place=name))
    return book


def client(
    name: str, where: Path | str, numbers: range, seconds: float, every: float
) -> list[tuple[float, bool]]:
    """Water and jot on trays in turn; how long each act took, s, and whether it was kept.

    An act begins `every` so many seconds, at once where the one before it took longer.
    """
    book = open_book(where if isinstance(where, Path) else address_of(where), SystemClock(), name)
    start, turn = time.monotonic(), 0
    took, until = [], start + seconds
    while time.monotonic() < until:
        tray = numbers[turn % len(numbers)]
        time.sleep(max(0.0, start + turn * every - time.monotonic()))
        began = time.perf_counter()
        try:
            if turn % 2:
                jot(book, [tray], f"{name} {turn}")
            else:
                did(book, "water", [tray], note=f"{name} {turn}")
            kept = True
        except Refused as refused:
            print(f"{name}: {refused}", file=sys.stderr)
            kept = False
        took.append((time.perf_counter() - began, kept))
        turn += 1
    return took


def crowd(clients: int, seconds: float, trays: int) -> None:
    """So many clients write for some seconds; what is in the book is what they were told."""
    with server() as made, tempfile.TemporaryDirectory() as folder:
        address = made.new("crowd")
        book = filled(address, trays)
        file = filled(Path(folder) / "room.book", trays).file.path
        given, paced = address.given, clients * seconds / trays
        _measured("file, 1 client", file, 1, 10, trays, open_book(file))
        _measured("server, 1 client", given, 1, 10, trays, book)
        _measured(
            f"server, {clients} clients, an act each {paced:.2f} s",
            given,
            clients,
            seconds,
            trays,
            book,
            paced,
        )
        _measured(f"server, {clients} clients as fast as they can", given, clients, 20, trays, book)


def _measured(
    what: str,
    where: Path | str,
    clients: int,
    seconds: float,
    trays: int,
    book: Book,
    every: float = 0.0,
) -> None:
    with book.reading() as reading:
        before = reading.value("SELECT max(id) FROM entry")
    share = trays // clients
    jobs = [(f"c{each}", where, range(101 + each * share, 101 + (each + 1) * share), seconds, every)
            for each in range(clients)]  # fmt: skip
    with get_context("spawn").Pool(clients) as pool:
        found = pool.starmap(client, jobs)
    took = sorted(each for some in found for each, _ in some)
    kept = {f"{job[0]} {turn}" for job, some in zip(jobs, found, strict=True)
            for turn, (_, ok) in enumerate(some) if ok}  # fmt: skip
    with book.reading() as reading:
        notes = Counter(
            row[0] for row in reading.rows("SELECT note FROM entry WHERE id > ?", (before,))
        )
    lost, twice = len(kept - set(notes)), sum(each > 1 for each in notes.values())
    refused = len(took) - len(kept)
    print(
        f"{what}: {len(took)} acts, {len(took) / seconds:.0f} a second, median {1000 * took[len(took) // 2]:.0f} ms, "
        f"95 of 100 within {1000 * took[len(took) * 95 // 100]:.0f} ms (bar 150), slowest {1000 * took[-1]:.0f}; "
        f"refused {refused}, lost {lost}, twice {twice}"
    )


def kills(times: int, seed: int) -> None:
    """Writers go on while the server is killed at random moments; nothing that was kept is lost or twice."""
    chance = random.Random(seed)
    with server() as made:
        address = made.new("kills")
        begin_book(address, BeginDraft(), SystemClock(), "bench")
        kept: set[str] = set()
        unsure: set[str] = set()
        refused, ended = [0], threading.Event()

        def write(name: str) -> None:
            book = open_book(address, SystemClock(), name)
            turn = 0
            while not ended.is_set():
                turn += 1
                note = f"{name} {turn}"
                try:
                    jot(book, [], note)
                    kept.add(note)
                except Refused as fault:
                    if "may have been written" in str(fault):
                        unsure.add(note)
                    refused[0] += 1
                    time.sleep(0.05)

        _until(lambda: open_book(address))
        writers = [threading.Thread(target=write, args=(f"w{each}",)) for each in range(4)]
        for each in writers:
            each.start()
        for count in range(times):
            time.sleep(chance.uniform(0.05, 0.6))
            made.kill()
            made.start()
            if count % 20 == 19:
                print(f"{count + 1} kills: {len(kept)} kept", flush=True)
        time.sleep(0.5)
        ended.set()
        for each in writers:
            each.join()
        with open_book(address).reading() as reading:
            notes = Counter(
                row[0] for row in reading.rows("SELECT note FROM entry WHERE kind = 'jot'")
            )
    lost = kept - set(notes)
    extra = set(notes) - kept - unsure
    twice = [note for note, often in notes.items() if often > 1]
    print(
        f"{times} kills: {len(kept)} acknowledged, {refused[0]} refused (of which {len(unsure)} not known), "
        f"lost {len(lost)}, twice {len(twice)}, there though refused {len(extra)}"
    )


def _until(done: Callable[[], object]) -> None:
    for _ in range(100):
        try:
            done()
        except Refused:
            time.sleep(0.1)
        else:
            return


if __name__ == "__main__":
    words = sys.argv[1:]
    if words[:1] == ["crowd"]:
        given = [float(each) for each in words[1:]]
        crowd(
            int(given[0]) if given else 20,
            given[1] if given[1:] else 120,
            int(given[2]) if given[2:] else 5000,
        )
    elif words[:1] == ["kills"]:
        times, seed = (*map(int, words[1:3]), 200, 1)[:2] if len(words) != 2 else (int(words[1]), 1)
        kills(times, seed)
    else:
        print(__doc__)
