"""How many lines to the server may be open, from one address and in all, and how long one may say nothing."""

import asyncio
import socket
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field

SILENT_SECONDS = 10.0
"""A line on which no whole request came by then is closed."""

Address = tuple[str, int]


@dataclass
class Bounds:
    """The lines of a server that are open. `most_of_one` counts those of one address."""

    most: int
    most_of_one: int
    _open: list[tuple[Address, socket.socket]] = field(default_factory=list)
    _silent: dict[Address, asyncio.TimerHandle] = field(default_factory=dict)

    def let_in(self, line: socket.socket, address: Address) -> bool:
        """Whether a new line may stay open; it is watched until it asks for something."""
        self._open = [(who, each) for who, each in self._open if each.fileno() != -1]
        hosts = Counter(who[0] for who, _ in self._open)
        if len(self._open) >= self.most or hosts[address[0]] >= self.most_of_one:
            return False
        self._open.append((address, line))
        self._silent[address] = asyncio.get_running_loop().call_later(
            SILENT_SECONDS, self._end, line, address
        )
        return True

    def asked(self, address: Address) -> None:
        """A whole request came from an address: its line may stay."""
        if (timer := self._silent.pop(address, None)) is not None:
            timer.cancel()

    def _end(self, line: socket.socket, address: Address) -> None:
        self._silent.pop(address, None)
        with suppress(OSError):
            line.shutdown(socket.SHUT_RDWR)


class BoundedSocket(socket.socket):
    """A listening socket that closes at once what the bounds do not let in."""

    let_in: Callable[[socket.socket, Address], bool]

    def accept(self) -> tuple[socket.socket, Address]:
        """The next line; raises BlockingIOError as a socket does on which nobody waits."""
        line, address = super().accept()
        if not self.let_in(line, address[:2]):
            line.close()
            raise BlockingIOError
        return line, address


def listening(host: str, port: int, bounds: Bounds) -> list[BoundedSocket]:
    """Sockets on all addresses of a host, bound and ready; raises OSError where one cannot be had."""
    found: list[BoundedSocket] = []
    asked = socket.getaddrinfo(host or None, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE)
    try:
        for family, kind, protocol, _name, address in dict.fromkeys(asked):
            one = BoundedSocket(family, kind, protocol)
            found.append(one)
            one.let_in = bounds.let_in
            one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            if family == socket.AF_INET6:
                one.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
            one.bind(address)
    except OSError:
        for one in found:
            one.close()
        raise
    return found
