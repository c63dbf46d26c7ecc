"""Files under test are written, but no test waits until they are on the disk: that is a third of its time.

What a power cut leaves is tried on processes of their own, which wait.
"""

from __future__ import annotations

import os
import sqlite3
from functools import partial
from typing import Any

import pytest


class Unsynced(sqlite3.Connection):
    """A connection that leaves it to the system when the disk gets what was written."""

    def execute(self, sql: str, *values: Any) -> sqlite3.Cursor:
        if sql == "PRAGMA synchronous=EXTRA":
            sql = "PRAGMA synchronous=OFF"
        return super().execute(sql, *values)


def wait_for_no_disk(patch: pytest.MonkeyPatch) -> None:
    """Let nothing in this process wait for the disk."""
    patch.setattr(sqlite3, "connect", partial(sqlite3.connect, factory=Unsynced))
    patch.setattr(os, "fsync", lambda _: None)
