"""The door of the server: who is asked in, and how fast a password can be guessed."""

from __future__ import annotations

import asyncio
import secrets

from logbook.serving.password import Password

WRONG_SECONDS = 1.0
MOST_WAITING = 5
MOST_KEYS = 200


class Door:
    """Lets in who knows the password, or everybody where there is none.

    Attempts are taken one after another, and a wrong one holds up the next for `wrong_seconds`:
    a guesser gets that many guesses and no more, however many lines it opens.
    """

    def __init__(self, password: Password | None, wrong_seconds: float = WRONG_SECONDS) -> None:
        self._password = password
        self._wrong_seconds = wrong_seconds
        self._keys: dict[str, None] = {}
        self._turn = asyncio.Lock()
        self._waiting = 0

    @property
    def locked(self) -> bool:
        """Whether a password is asked for."""
        return self._password is not None

    @property
    def crowded(self) -> bool:
        """Whether so many attempts wait that another would only add to them."""
        return self._waiting >= MOST_WAITING

    async def key_for(self, given: str) -> str | None:
        """A new random key for the right password, or None for a wrong one, later."""
        self._waiting += 1
        try:
            async with self._turn:
                if self._password is not None and self._password.matches(given):
                    return self._new_key()
                await asyncio.sleep(self._wrong_seconds)
                return None
        finally:
            self._waiting -= 1

    def knows(self, key: str) -> bool:
        """Whether this key opens; every key ends with the server."""
        return not self.locked or key in self._keys

    def _new_key(self) -> str:
        key = secrets.token_urlsafe(32)
        self._keys[key] = None
        while len(self._keys) > MOST_KEYS:
            del self._keys[next(iter(self._keys))]
        return key
