"""Keys are taken strictly one after another, whatever the line does to their arrival."""

from __future__ import annotations

import asyncio
import gc
from contextlib import suppress

from textual import events
from textual.app import App
from textual.message import Message
from textual.message_pump import MessagePump

from logbook.text import clean

STEPS_TO_ASK = 6
"""Turns of the loop in which a command that asks something has put its question on the screen."""
CATCH_UP_SECONDS = 1.0
COLLECT_AFTER_SECONDS = 0.1
"""So long after the last key the hands are elsewhere and what the key did is painted."""
COLLECT_FROM = 3
"""Collections of the younger generations since the last full one; Python makes one after ten."""


class KeysInTurn(App[None]):
    """An app whose next key waits until the one before has done all that it does."""

    _on_its_way: events.Event | None = None
    _came_up = False
    _collecting: asyncio.TimerHandle | None = None
    typed_at = 0.0
    """When the last key was done, by the loop's time, in s."""

    async def on_event(self, event: events.Event) -> None:
        """Take keys strictly one after another, and clean what is pasted.

        Textual looks for the command of a key when it has bubbled up from the line, and hands the
        keys that follow to whatever has the focus meanwhile: of a burst over a slow link, the later
        ones would reach the screen or line that the earlier ones were about to leave. Escapes in a
        paste would reach the terminal raw.
        """
        if not isinstance(event, (events.Key, events.Paste)) or event.is_forwarded:
            await super().on_event(event)
            return
        await _caught_up(self.screen)  # the screen that the key before opened has its focus by then
        if isinstance(event, events.Paste):
            event.text = clean(event.text)
        node: MessagePump = self.focused or self.screen
        self._on_its_way, self._came_up = event, False
        await super().on_event(event)
        if event.is_forwarded:  # to the line in focus, which hands it up parent by parent
            while node is not self and node.parent is not None:
                await _caught_up(node)
                node = node.parent
        self._on_its_way = None
        if self._came_up:  # nobody on the way took it: now, in its turn, it is ours
            await super().on_event(event)
        for _ in range(STEPS_TO_ASK):
            await asyncio.sleep(0)
        self._collect_soon()

    def post_message(self, message: Message) -> bool:
        """Take a message in, but a key that comes up from its line is done by `on_event`."""
        if message is self._on_its_way:
            self._came_up = True
            return True
        return super().post_message(message)

    def _collect_soon(self) -> None:
        """Collect garbage between keys rather than in one: a full collection takes 10 to 40 ms."""
        if self._collecting is not None:
            self._collecting.cancel()
        loop = asyncio.get_running_loop()
        self.typed_at = loop.time()
        self._collecting = loop.call_later(COLLECT_AFTER_SECONDS, collect_if_near)

    def on_unmount(self) -> None:
        """Leave no timer behind."""
        if self._collecting is not None:
            self._collecting.cancel()


async def _caught_up(node: MessagePump) -> None:
    """Wait until a screen or line has taken in what was sent to it; a stuck one for a second."""
    done = asyncio.Event()
    if node.call_later(done.set):
        with suppress(TimeoutError):
            await asyncio.wait_for(done.wait(), CATCH_UP_SECONDS)


def collect_if_near() -> None:
    """Make a full garbage collection, where one is near; none before the start is done."""
    if gc.isenabled() and gc.get_count()[2] >= COLLECT_FROM:
        gc.collect()
