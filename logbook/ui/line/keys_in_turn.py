"""Keys are taken strictly one after another, whatever line and disk do to their arrival."""

import asyncio
import gc
from collections.abc import Sequence
from itertools import takewhile
from typing import Any, ClassVar, Literal

from textual import events
from textual.app import App
from textual.dom import DOMNode
from textual.message import Message
from textual.message_pump import MessagePump
from textual.screen import ModalScreen, Screen
from textual.widgets import Input, TextArea

from logbook.text import clean
from logbook.ui.line.reads import read_of
from logbook.ui.widgets.line_input import LineInput

CLIMBS = 8
"""As often it is waited for what a key sent from widget to widget; most send nothing on after two."""
TURNS, TURN_SECONDS = 200, 0.01
"""So long a stuck widget is waited for: by the loop's turns too, as a machine may stand still."""
LOOK_AGAIN_SECONDS = 0.002
"""So long after it was busy it is looked again whether the next key may be taken."""
COLLECT_AFTER_SECONDS = 0.1
"""So long after the last key the hands are elsewhere and what the key did is painted."""
COLLECT_FROM = 3
"""Collections of the younger generations since the last full one; Python makes one after ten."""


class KeysInTurn(App[None]):
    """An app whose next key waits until the one before has done all that it does.

    That is until what it wrote is in the book and the screen or question that it led to is drawn
    and has the focus: a key acts on what its person saw. None is dropped.
    """

    APART: ClassVar = frozenset({"warm", "care", "doubt", "remind", "preview", "beside"})
    """Groups of workers that no key waits for."""
    _on_its_way: events.Event | None = None
    _came_up = False
    _doing = False
    _anew = False
    """Whether something was read or written since the last key, so that the screen is another."""
    _typed_on: Screen[Any] | None = None
    _collecting: asyncio.TimerHandle | None = None
    typed_at = 0.0
    """When the last key was done, by the loop's time, in s."""

    def __init__(self, **facts: object) -> None:
        super().__init__(**facts)  # type: ignore[arg-type]
        self._typed: list[events.Key | events.Paste] = []

    async def on_event(self, event: events.Event) -> None:
        """Put keys and what is pasted into the queue; all else goes its way at once."""
        if not isinstance(event, (events.Key, events.Paste)) or event.is_forwarded:
            await super().on_event(event)
            return
        idle = not self.typed_ahead
        self._typed.append(event)
        if idle:
            self._take_soon()

    @property
    def typed_ahead(self) -> bool:
        """Whether keys wait, or one is being done."""
        return self._doing or bool(self._typed)

    def _take_soon(self) -> None:
        self.call_later(self._take)  # after all that the key before has sent to the app

    async def _take(self) -> None:
        """Take the next key, or look again a little later while the one before is at work."""
        screen, busy = self.screen, self._busy()
        self._anew = self._anew or busy or screen is not self._typed_on
        if not busy:  # the screen that the key before opened has its focus by then
            await _caught_up(screen, drawn=self._anew)
        if self._busy() or self.screen is not screen:
            asyncio.get_running_loop().call_later(LOOK_AGAIN_SECONDS, self._take_soon)
            return
        held = self._held()
        taken = held or self._typed[:1]
        del self._typed[: len(taken)]
        self._doing, self._anew, self._typed_on = True, False, screen
        try:
            if held:
                self.ask_about(held)
            else:
                await self._do(taken[0])
        finally:
            self._doing = False
            if self._typed:
                self._take_soon()

    def _held(self) -> list[events.Key]:
        """The keys of one read, if they would write in two ways with no line open for a text.

        A code reader over the round sends such: its letters are no commands.
        """
        read = read_of(self._typed[0])
        if read is None or self.takes_text or isinstance(self.screen, ModalScreen):
            return []
        at_once = takewhile(lambda event: read_of(event) == read, self._typed)
        keys = [event for event in at_once if isinstance(event, events.Key)]
        letters = set()
        for key in keys:
            does = self.done_by(key)
            if does == "asks":
                break
            if does == "writes" and (key.character or "").isalpha():
                letters.add(key.character)
        return keys if len(letters) > 1 else []

    @property
    def takes_text(self) -> bool:
        """Whether what has the focus takes a text."""
        return isinstance(self.focused, (Input, TextArea))

    def done_by(self, key: events.Key) -> Literal["writes", "asks", ""]:
        """Whether a key of the screen that is shown writes at once, asks for something, or neither."""
        return ""

    def ask_about(self, keys: Sequence[events.Key]) -> None:
        """Ask whether keys that came at once are commands; `do_after_all` does them."""

    def do_after_all(self, keys: Sequence[events.Key]) -> None:
        """Do keys that were asked about before all that was typed since."""
        for key in keys:
            key.__dict__.pop("read")
        idle = not self.typed_ahead
        self._typed[:0] = keys
        if idle:
            self._take_soon()

    def _busy(self) -> bool:
        """Whether work is under way that the next key must wait for.

        A question that stands on top waits for its person, and who asks it waits with it.
        """
        top, line = self.screen, self.focused
        apart = self.APART | (
            line.goes_on(self._typed[0]) if isinstance(line, LineInput) else set()
        )
        return any(
            not worker.is_finished and worker.group not in apart
            for worker in self.workers
            if worker.node is top or not isinstance(top, ModalScreen)
        )

    async def _do(self, event: events.Key | events.Paste) -> None:
        """Let a key do all that it does, and clean what is pasted.

        Textual looks for the command of a key when it has bubbled up from the line, and hands the
        keys that follow to whatever has the focus meanwhile: of a burst over a slow link, the later
        ones would reach the screen or line that the earlier ones were about to leave. Escapes in a
        paste would reach the terminal raw.
        """
        if isinstance(event, events.Paste):
            event.text = clean(event.text)
        line: DOMNode = self.focused or self.screen
        way = [node for node in line.ancestors_with_self if node is not self]
        self._on_its_way, self._came_up = event, False
        await super().on_event(event)  # to the line in focus, which hands it up parent by parent
        await _all_caught_up(way)
        self._on_its_way = None
        if self._came_up:  # nobody on the way took it: now, in its turn, it is ours
            await super().on_event(event)
            await _all_caught_up(way)
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


async def _all_caught_up(way: Sequence[MessagePump]) -> None:
    """Wait until what was sent to a line has gone up to its screen, and what came of that too."""
    for _ in range(CLIMBS):
        if not any(node.message_queue_size for node in way):
            return
        for node in way:
            if not await _caught_up(node):
                return


async def _caught_up(node: MessagePump, *, drawn: bool = False) -> bool:
    """Wait until a screen or line has taken in what was sent to it; False for one that is stuck.

    With `drawn` also until that is on the screen, and what waits for this is done.
    """
    done = asyncio.get_running_loop().create_future()

    def tell() -> None:  # Textual counts its parameters, which takes 0.1 ms for a built-in function
        done.set_result(None)

    if (node.call_after_refresh if drawn else node.call_later)(tell):
        for turn in range(TURNS):
            if done.done():
                return True
            await (asyncio.sleep(0) if turn < 5 else asyncio.wait((done,), timeout=TURN_SECONDS))
        return done.done()
    return True


def collect_if_near() -> None:
    """Make a full garbage collection, where one is near; none before the start is done."""
    if gc.isenabled() and gc.get_count()[2] >= COLLECT_FROM:
        gc.collect()
