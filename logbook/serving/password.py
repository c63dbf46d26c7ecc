"""The password of a served book: read once, never shown, compared in constant time."""

from __future__ import annotations

import hashlib
import hmac
import stat
from collections.abc import MutableMapping
from pathlib import Path

from logbook.text import Refused

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

    def matches(self, given: str) -> bool:
        """Whether this is the password; takes equally long for every wrong one."""
        return hmac.compare_digest(self._hash, _hash(given))


def _hash(text: str) -> bytes:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()


def read_password(file: Path | None, environment: MutableMapping[str, str]) -> Password | None:
    """Read the password from its file, else from PASSWORD_VARIABLE; None where there is neither.

    The variable is taken out of the environment, so that no process started later inherits it.

    Raises:
        Refused: the file cannot be read, others may read it, or the password is too short.
    """
    variable = environment.pop(PASSWORD_VARIABLE, None)
    if file is not None:
        return Password(_first_line(file), f"{file}")
    return None if variable is None else Password(variable, PASSWORD_VARIABLE)


def _first_line(file: Path) -> str:
    try:
        if file.stat().st_mode & (stat.S_IROTH | stat.S_IWOTH):
            raise Refused(
                f"Everybody on this machine may read {file}; run chmod 600 on it, and take "
                "another password."
            )
        lines = file.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError) as fault:
        raise Refused(
            f"The password file {file} cannot be read; write the password into its first line."
        ) from fault
    return lines[0] if lines else ""
