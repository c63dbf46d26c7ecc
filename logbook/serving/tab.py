"""A tab: the process of one browser tab, and what the tab sends it."""

from __future__ import annotations

import asyncio
import json
from contextlib import suppress
from typing import Any

from aiohttp import WSMsgType, web
from textual_serve.app_service import AppService

WIDTHS = range(10, 1001)
HEIGHTS = range(5, 501)
MOST_LETTERS = 100_000
ENDING_SECONDS = 5.0


class Tab(AppService):
    """One app in its own process; when that ends, for whatever reason, the line is closed."""

    async def run(self) -> None:
        """Hand on what the process writes until it ends."""
        with suppress(asyncio.CancelledError):  # a process that ends at once cancels its reader
            await super().run()
        await self.remote_close()

    async def stop(self) -> None:
        """End the process and wait for that; one that hangs is killed after ENDING_SECONDS."""
        try:
            async with asyncio.timeout(ENDING_SECONDS):
                await super().stop()
                await self._ended()
        except TimeoutError:
            if self._process is not None:
                with suppress(ProcessLookupError):
                    self._process.kill()
                await self._ended()

    async def _ended(self) -> None:
        if self._process is not None:
            await self._process.communicate()

    async def listen(self, line: web.WebSocketResponse) -> None:
        """Hand on what the tab sends until its line closes; what makes no sense is passed over."""
        async for message in line:
            if message.type is not WSMsgType.TEXT:
                continue
            kind, value = read_message(message.data)
            if kind == "stdin":
                await self.send_bytes(value.encode("utf-8", "replace"))
            elif kind == "resize":
                await self.set_terminal_size(*value)
            elif kind == "ping":
                await line.send_json(["pong", value])
            elif kind == "blur":
                await self.blur()
            elif kind == "focus":
                await self.focus()


def read_message(text: str) -> tuple[str, Any]:
    """Read a message of the page: its kind and value, or ("", None) when it makes no sense.

    stdin and ping carry a text, resize (columns, rows), blur and focus nothing.
    """
    try:
        kind, value = [*json.loads(text), None][:2]
        if kind == "resize":
            return kind, terminal_size(value["width"], value["height"])
    except (ValueError, TypeError, KeyError, OverflowError, RecursionError):
        return "", None
    if kind in ("blur", "focus"):
        return kind, None
    if kind in ("stdin", "ping") and isinstance(value, str) and len(value) <= MOST_LETTERS:
        return kind, value
    return "", None


def terminal_size(width: Any, height: Any) -> tuple[int, int]:
    """Columns and rows within what can be drawn; raise ValueError for what is no number."""
    columns, rows = int(width), int(height)
    return (min(max(columns, WIDTHS[0]), WIDTHS[-1]), min(max(rows, HEIGHTS[0]), HEIGHTS[-1]))
