"""The steps of every story on the screens: press keys, let the app answer, look."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from textual import events
from textual.keys import Keys
from textual.pilot import Pilot

from logbook.ui.command import ARROWS, KEY_WORDS
from logbook.ui.line.keys_in_turn import KeysInTurn
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.bars import Sentence
from tests.ui.painting import look_at, paint

NAMES = {each.value for each in Keys} | set(KEY_WORDS)
"""What is the name of a key; all else is a text to be typed."""
LETTERS = {
    key: words for key, words in KEY_WORDS.items() if len(words) == 1 and key not in ARROWS
} | {"space": " "}
"""The keys with names that type something."""
SPELLED = {letter: key for key, letter in LETTERS.items()}
ALWAYS = ("view", "preview", "remind", "save", "write")
"""Work that ends by itself; other work may wait for the answer to a question."""
APART = ("warm_up", "look_after")
"""Work that nobody waits for."""
MOST_SECONDS = 30.0


async def settle(pilot: Pilot[None]) -> None:
    """Wait until everything asked for is written, read and drawn, and the loop has nothing to do.

    While a question is open, work that may wait for its answer is not waited for.
    """
    loop = asyncio.get_running_loop()
    ready, until = vars(loop)["_ready"], loop.time() + MOST_SECONDS
    while loop.time() < until:
        await asyncio.sleep(0)
        if ready:
            continue
        if _busy(pilot):
            await asyncio.sleep(0.001)
            continue
        if not pilot.app.is_running:
            return
        pilot.app.screen._on_timer_update()  # what a timer draws 60 times a second
        await asyncio.sleep(0)
        if not ready and not _busy(pilot):
            return
    raise AssertionError(f"still busy:\n{screen_text(pilot)}")


def _busy(pilot: Pilot[None]) -> bool:
    if isinstance(pilot.app, KeysInTurn) and pilot.app.typed_ahead:
        return True
    asked = not isinstance(pilot.app.screen, LogScreen)
    return any(
        worker.group in ALWAYS if asked else worker.name not in APART
        for worker in pilot.app.workers
        if not worker.is_finished
    )


async def press(pilot: Pilot[None], *keys: str) -> None:
    """Press keys one after another, each by its name; what is no name is typed as a text."""
    for key in keys:
        paint(pilot.app.screen)
        send(pilot, key)
        await settle(pilot)


def send(pilot: Pilot[None], key: str) -> None:
    """Press a key, or type a text, without waiting: all at once, as a slow link does."""
    for each in [key] if key in NAMES else key:
        name = SPELLED.get(each, each)
        pilot.app.post_message(events.Key(name, each if len(each) == 1 else LETTERS.get(name)))


async def until(pilot: Pilot[None], true: Callable[[], bool]) -> None:
    """Let the app work until something is so."""
    for _ in range(400):
        if true():
            return
        await pilot.pause(0.01)
    raise AssertionError(screen_text(pilot))


async def sees(pilot: Pilot[None], *words: str) -> None:
    """Let the app work until all of the words are on the screen."""
    await until(pilot, lambda: all(each in screen_text(pilot) for each in words))


def screen_text(pilot: Pilot[None]) -> str:
    """Give what is on the screen, as lines."""
    text = "\n".join(look_at(pilot.app.screen))
    assert "\ufdd0" not in text, "a Way that nobody put words for"
    return text


def said(pilot: Pilot[None]) -> str:
    """Give the line that answered the last key."""
    return str(pilot.app.screen.query_one(Sentence).render())
