"""The door of the server: by which names it is called, who is let in, how fast a password is guessed.

The password is read once, never shown, and compared in constant time.
"""

from __future__ import annotations

import asyncio
import base64
import hashlib
import hmac
import ipaddress
import secrets
import stat
from collections import Counter
from collections.abc import Iterable, MutableMapping
from pathlib import Path
from urllib.parse import urlsplit

from logbook.text import Refused

WRONG_SECONDS = 1.0
MOST_WAITING = 5
MOST_KEYS = 200


class Door:
    """Lets in who knows the password, or everybody where there is none.

    Attempts from one address are taken one after another, and a wrong one holds up its next for
    `wrong_seconds`: a guesser gets that many guesses and no more, however many lines it opens, and
    holds up nobody elsewhere.
    """

    def __init__(self, password: Password | None, wrong_seconds: float = WRONG_SECONDS) -> None:
        self._password = password
        self._wrong_seconds = wrong_seconds
        self._keys: dict[str, None] = {}
        self._turns: dict[str, asyncio.Lock] = {}
        self._waiting: Counter[str] = Counter()

    @property
    def locked(self) -> bool:
        """Whether a password is asked for."""
        return self._password is not None

    def crowded(self, address: str) -> bool:
        """Whether so many attempts from an address wait that another would only add to them."""
        return self._waiting[_neighbours(address)] >= MOST_WAITING

    async def key_for(self, given: str, address: str = "") -> str | None:
        """A new random key for the right password, or None for a wrong one, later."""
        who = _neighbours(address)
        self._waiting[who] += 1
        try:
            async with self._turns.setdefault(who, asyncio.Lock()):
                if self._password is not None and self._password.matches(given):
                    return self._new_key()
                await asyncio.sleep(self._wrong_seconds)
                return None
        finally:
            self._waiting[who] -= 1
            if not self._waiting[who]:
                del self._waiting[who], self._turns[who]

    def knows(self, key: str) -> bool:
        """Whether this key opens; every key ends with the server."""
        return not self.locked or key in self._keys

    @property
    def feed_key(self) -> str:
        """What the calendar's address holds where there is a password: the same as long as that is."""
        return "" if self._password is None else self._password.feed_key

    def feeds(self, given: str) -> bool:
        """Whether the calendar is given to who has this in its address."""
        return not self.locked or hmac.compare_digest(_hash(given), _hash(self.feed_key))

    def _new_key(self) -> str:
        key = secrets.token_urlsafe(32)
        self._keys[key] = None
        while len(self._keys) > MOST_KEYS:
            del self._keys[next(iter(self._keys))]
        return key


PASSWORD_VARIABLE = "LOGBOOK_PASSWORD"  # noqa: S105 - the name of a variable
SHORTEST = 8


class Password:
    """A password of SHORTEST characters or more; only its hash is kept, and no words show it."""

    def __init__(self, text: str, source: str) -> None:
        if len(text) < SHORTEST:
            raise Refused(
                f"The password in {source} is too short; use {SHORTEST} characters or more."
            )
        self._hash = _hash(text)
        made = hashlib.scrypt(self._hash, salt=b"logbook calendar", n=1 << 14, r=8, p=1, dklen=24)
        self.feed_key = base64.urlsafe_b64encode(made).decode()
        """A key made from it that doesn't lead back to it: a calendar program can't log in."""

    def matches(self, given: str) -> bool:
        """Whether this is the password; takes equally long for every wrong one."""
        return hmac.compare_digest(self._hash, _hash(given))


def _hash(text: str) -> bytes:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()


def read_password(file: Path | None, environment: MutableMapping[str, str]) -> Password | None:
    """Read the password from its file, or take it out of the environment; None for neither."""
    variable = environment.pop(PASSWORD_VARIABLE, None)
    if file is not None:
        return Password(_first_line(file), f"{file}")
    return None if variable is None else Password(variable, PASSWORD_VARIABLE)


def _first_line(file: Path) -> str:
    try:
        if file.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
            raise Refused(
                f"Others on this machine can read {file}; run chmod 600 on it, and choose "
                "another password."
            )
        lines = file.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError) as fault:
        raise Refused(
            f"The password file {file} cannot be read; write the password into its first line."
        ) from fault
    return lines[0] if lines else ""


def is_loopback(host: str) -> bool:
    """Whether an address or name is reached from this machine alone."""
    address = _address(host)
    return address.is_loopback if address else host.casefold() == "localhost"


def host_names(host: str, machine: str, given: Iterable[str] = ()) -> frozenset[str]:
    """The names, beside addresses, by which a browser may call a server bound to `host`.

    A page elsewhere can point a name of its own at this machine (DNS rebinding) and would then be
    taken for our page; so only known names are answered.
    """
    own = () if is_loopback(host) else (machine, f"{machine}.local")
    return frozenset(name.casefold().rstrip(".") for name in ("localhost", *own, *given))


def host_is_known(header: str, names: Iterable[str], *, loopback: bool) -> bool:
    """Whether a Host header is one of the names, or an address, of this machine with loopback."""
    host = _host_of(header)
    address = _address(host)
    if address is not None:
        return address.is_loopback or not loopback
    return host.rstrip(".") in names


def same_origin(origin: str, host: str) -> bool:
    """Whether an Origin header is the page of the server that the Host header names."""
    try:
        parts = urlsplit(origin)
    except ValueError:
        return False
    return parts.scheme in ("http", "https") and parts.netloc.casefold() == host.casefold()


def _host_of(header: str) -> str:
    try:
        return (urlsplit(f"//{header}").hostname or "").casefold()
    except ValueError:
        return ""


def _neighbours(address: str) -> str:
    """The address, or the network of it where a machine has as many as it likes (IPv6: /64)."""
    found = _address(address)
    return found.exploded[:19] if isinstance(found, ipaddress.IPv6Address) else address


def _address(host: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        return ipaddress.ip_address(host)
    except ValueError:
        return None
