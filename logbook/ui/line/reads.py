"""Which keys came from the terminal in one read: a code reader or a lagging line sends several at once."""

from collections.abc import Iterable

from textual._xterm_parser import XTermParser
from textual.message import Message


class ReadsNumbered(XTermParser):
    """Textual's parser, that notes on each message in which read it came."""

    _reads = 0

    def feed(self, data: str) -> Iterable[Message]:
        self._reads += 1
        for message in super().feed(data):
            message.__dict__["read"] = self._reads
            yield message


def read_of(message: Message) -> int | None:
    """The number of the read in which a message came; None for one that no terminal sent."""
    return message.__dict__.get("read")
