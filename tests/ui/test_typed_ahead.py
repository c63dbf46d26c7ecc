"""Keys typed ahead, while the book is being written, do what the same keys do when typed slowly."""

from __future__ import annotations

import asyncio
import gc
import sqlite3
import threading
from collections.abc import Awaitable, Callable, Sequence
from difflib import ndiff
from pathlib import Path
from random import Random

import pytest
from textual.message_pump import MessagePump
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.store.writer import Writer
from logbook.ui.app import LogbookApp
from logbook.ui.line import keys_in_turn
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.watching import Watching
from tests.ui import steps
from tests.ui.list_room import cutting_room
from tests.ui.steps import press, screen_text, send, settle

See = Callable[[Book, Pilot[None]], list[str]]
"""What lines are compared."""
MOST_BACK = 12
MANY_TURNS = 60
SEQUENCES = 30
"""Of each draw; there are two draws, so that two processes share them."""
PIECES: tuple[tuple[str, ...], ...] = (
    ("enter",), ("enter",), ("enter", "enter", "enter"), ("down",), ("down", "down"), ("up",), ("W",),
    ("u",), ("U",), ("space",), ("j", "t W", "enter"), ("j", "u", "enter"), ("j", "hW", "escape"),
    ("s", "dry", "enter"), ("s", "enter", "escape"), ("t", "0830", "enter"), ("t", "0", "escape"),
    ("p", "101", "enter"), ("p", "105-106", "enter"), ("m", "Rack 1/Shelf 2", "enter"), ("d", "enter", "s", "enter"),
    ("l", "f9"), ("l", "down", "escape"), ("101", "enter"), ("103", "enter", "j", "pW", "enter"),
    ("w", "283", "enter", "280", "enter"), ("w", "102 p", "enter"), ("w", "105 90 p", "enter", "u"),
    ("k", "wr", "enter"), ("slash", "t", "enter"), ("o",), ("y",), ("a",), ("escape",), ("r",),
)  # fmt: skip


class Gate:
    """Holds every commit until it is let go."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.shut = False
        self.held = 0
        self.counting = threading.Lock()
        self.passes = threading.Semaphore(0)
        commit = Writer.commit

        def held(writer: Writer) -> None:
            if self.shut:
                with self.counting:
                    self.held += 1
                assert self.passes.acquire(timeout=20)
            commit(writer)

        patch.setattr(Writer, "commit", held)

    async def typed_ahead(self, pilot: Pilot[None], keys: list[str], dice: Random) -> None:
        """Type keys with few turns of the loop between them, and let each commit go after some."""
        self.shut = True
        opener = asyncio.create_task(self._open(dice))
        for key in keys:
            send(pilot, key)
            for _ in range(dice.choice((0, 0, 1, 20))):
                await asyncio.sleep(0)
        await settle(pilot)
        opener.cancel()
        self.shut = False

    async def _open(self, dice: Random) -> None:
        while True:
            if not self.held:
                await asyncio.sleep(0.001)
                continue
            for _ in range(dice.choice((0, 5, 50, 500))):
                await asyncio.sleep(0)
            with self.counting:
                self.held -= 1
            self.passes.release()


def written(book: Book, _: Pilot[None] | None = None) -> list[str]:
    """All that the book holds, as SQL, but for how the index of words is kept."""
    with sqlite3.connect(book.file.path) as connection:
        return [line for line in connection.iterdump() if '"entry_index' not in line]


@pytest.mark.parametrize("draw", range(2))
def test_keys_typed_ahead_of_a_slow_disk_do_what_they_do_typed_slowly(
    draw: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not differences(tmp_path, Random(draw), patched(monkeypatch), written)


def typed_at_once(folder: Path, *keys: str, size: tuple[int, int] = (80, 24)) -> str:
    """What the screen shows after keys that came all at once."""
    shown = []

    async def sit() -> None:
        async with LogbookApp(cutting_room(folder)).run_test(size=size) as pilot:
            for key in keys:
                send(pilot, key)
            await settle(pilot)
            shown.append(screen_text(pilot))

    asyncio.run(sit())
    return shown[0]


def test_a_letter_may_take_its_question_down_before_it_is_looked_at(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    caught_up = keys_in_turn._caught_up

    async def slowly(node: MessagePump, *, drawn: bool = False) -> bool:
        caught = await caught_up(node, drawn=drawn)
        for _ in range(MANY_TURNS):
            await asyncio.sleep(0)
        return caught

    monkeypatch.setattr(keys_in_turn, "_caught_up", slowly)
    assert "Air at Rack 1/Shelf 1" in typed_at_once(tmp_path, "i", "a")


def test_the_line_one_is_on_stays_in_view_when_complaints_grow_above_it(tmp_path: Path) -> None:
    shown = typed_at_once(tmp_path, "l", "d", "enter", "s", "enter", "x", "enter", size=(40, 20))
    assert "none, spot" in shown


def test_keys_go_by_the_loops_turns_where_the_machine_stood_still(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keys_in_turn, "TURN_SECONDS", 0.0)
    assert "jotted on 101–104" in typed_at_once(tmp_path, "j", "slugs", "enter")


def patched(patch: pytest.MonkeyPatch) -> Gate:
    """The gate of commits, in a program that does nothing by the clock on the wall."""
    patch.setattr(gc, "collect", lambda: 0)  # takes a tenth of the time
    patch.setattr(steps, "paint", lambda _: None)  # all that is compared is drawn for it
    patch.setattr("logbook.ui.app.BOUNCE_SECONDS", 0.0)
    patch.setattr(Watching, "tick", lambda _: None)
    return Gate(patch)


def drawn_by(dice: Random, pieces: Sequence[tuple[str, ...]] = PIECES) -> list[list[str]]:
    """Sequences of keys."""
    return [
        [key for _ in range(dice.randint(1, 2)) for key in dice.choice(pieces)]
        for _ in range(SEQUENCES)
    ]


def written_and_shown(book: Book, pilot: Pilot[None]) -> list[str]:
    return [*written(book), *screen_text(pilot).split("\n")]


def differences(
    folder: Path, dice: Random, gate: Gate, see: See
) -> list[tuple[list[str], list[str]]]:
    """The sequences after which other lines are seen than when they are typed slowly, and these."""
    books = []
    for name in ("slowly", "ahead"):
        (folder / name).mkdir(parents=True)
        books.append(cutting_room(folder / name))
    drawn = drawn_by(dice)
    slowly = run(books[0], drawn, lambda pilot, keys: press(pilot, *keys), see)
    ahead = run(books[1], drawn, lambda pilot, keys: gate.typed_ahead(pilot, keys, dice), see)
    return [
        (keys, [line for line in ndiff(slow, fast) if line[0] in "-+"])
        for keys, slow, fast in zip(drawn, slowly, ahead, strict=True)
        if slow != fast
    ]


def run(
    book: Book,
    drawn: list[list[str]],
    type_them: Callable[[Pilot[None], list[str]], Awaitable[None]],
    see: See,
) -> list[list[str]]:
    """The lines that are seen after each sequence, in one sitting."""
    found = []

    async def sit() -> None:
        async with LogbookApp(book).run_test(size=(40, 20)) as pilot:
            for keys in drawn:
                await type_them(pilot, keys)
                found.append(see(book, pilot))
                for _ in range(MOST_BACK):
                    if isinstance(pilot.app.screen, RoundScreen):
                        break
                    asked = "This form is not saved" in screen_text(pilot)
                    await press(pilot, "x" if asked else "escape")
                else:
                    raise AssertionError(f"no way back from\n{screen_text(pilot)}")

    asyncio.run(sit())
    return found
