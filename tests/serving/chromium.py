"""A real browser to test with: a headless Chromium, spoken to over its own debugging line."""

from __future__ import annotations

import asyncio
import base64
import json
import shutil
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pyte
from aiohttp import ClientSession, ClientWebSocketResponse

PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--remote-debugging-port=0", "--force-device-scale-factor=3",
)  # fmt: skip
PATIENCE_SECONDS = 30


class Page:
    """A page of the browser, and the terminal in it as its line draws it."""

    def __init__(self, line: ClientWebSocketResponse) -> None:
        self.asked: list[str] = []
        """Every address that the page asked for."""
        self.refused: list[str] = []
        """What the page was not allowed to do, and errors of its scripts."""
        self._line = line
        self._number = 0
        self._answers: dict[int, dict[str, Any]] = {}
        self._screen = pyte.Screen(80, 24)
        self._stream = pyte.ByteStream(self._screen)

    @property
    def columns(self) -> int:
        """How many columns the terminal has."""
        return int(self._screen.columns)

    @property
    def text(self) -> str:
        """What stands in the terminal."""
        return "\n".join(line.rstrip() for line in self._screen.display)

    async def tell(self, method: str, **given: Any) -> dict[str, Any]:
        """Give the browser a command and wait for its answer."""
        self._number += 1
        number = self._number
        await self._line.send_json({"id": number, "method": method, "params": given})
        await self.until(lambda: number in self._answers)
        answer = self._answers.pop(number)
        assert "error" not in answer, answer
        result: dict[str, Any] = answer["result"]
        return result

    async def until(self, true: Callable[[], bool]) -> None:
        """Take in what the browser reports until something is true."""
        try:
            async with asyncio.timeout(PATIENCE_SECONDS):
                while not true():
                    self._take(json.loads(await self._line.receive_str()))
        except TimeoutError as late:
            raise AssertionError(f"{self.refused}\n{self.text}") from late

    async def value(self, script: str) -> Any:
        """Give the value of a script in the page."""
        answer = await self.tell("Runtime.evaluate", expression=script, returnByValue=True)
        return answer["result"].get("value")

    async def until_value(self, script: str, *, true: Any) -> None:
        """Wait until a script in the page has a value."""
        async with asyncio.timeout(PATIENCE_SECONDS):
            while await self.value(script) != true:
                pass

    async def open(self, address: str, *, desk: bool = False) -> None:
        """Show a page on a telephone of 390 by 844 points, or on a desk's screen of 1280 by 800."""
        for part in ("Network", "Page", "Runtime", "Log"):
            await self.tell(f"{part}.enable")
        await self.tell(
            "Emulation.setDeviceMetricsOverride",
            width=1280 if desk else 390, height=800 if desk else 844, deviceScaleFactor=0,
            mobile=not desk,
        )  # fmt: skip
        await self.tell("Emulation.setTouchEmulationEnabled", enabled=not desk)
        await self.tell("Page.navigate", url=address)

    async def touch(self, key: str) -> None:
        """Touch one of the keys on the screen."""
        x, y = await self.value(
            "(() => { const box = document.querySelector"
            f"('[data-key=\"{key}\"]').getBoundingClientRect();"
            "return [box.x + box.width / 2, box.y + box.height / 2]; })()"
        )
        await self.tell(
            "Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}]
        )
        await self.tell("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    async def picture(self) -> bytes:
        """Give a picture of the page (PNG), to look at by hand."""
        shot = await self.tell("Page.captureScreenshot")
        return base64.b64decode(shot["data"])

    def _take(self, report: dict[str, Any]) -> None:
        if "id" in report:
            self._answers[report["id"]] = report
            return
        method, given = report["method"], report["params"]
        if method == "Network.requestWillBeSent":
            self.asked.append(given["request"]["url"])
        elif method == "Network.webSocketCreated":
            self.asked.append(given["url"])
        elif method == "Log.entryAdded" and given["entry"]["level"] == "error":
            self.refused.append(given["entry"]["text"])
        elif method == "Runtime.exceptionThrown":
            self.refused.append(json.dumps(given["exceptionDetails"]))
        elif method == "Network.webSocketFrameSent":
            kind, *value = json.loads(given["response"]["payloadData"])
            if kind == "resize":
                self._screen.resize(value[0]["height"], value[0]["width"])
        elif method == "Network.webSocketFrameReceived" and given["response"]["opcode"] == 2:
            self._stream.feed(base64.b64decode(given["response"]["payloadData"]))


@asynccontextmanager
async def chromium(folder: Path) -> AsyncIterator[Page]:
    """Start a browser that keeps all it knows in a folder of its own; give its page."""
    assert PROGRAM is not None
    program = await asyncio.create_subprocess_exec(
        PROGRAM, *FLAGS, f"--user-data-dir={folder}", "about:blank",
        stdout=asyncio.subprocess.DEVNULL, stderr=asyncio.subprocess.PIPE,
    )  # fmt: skip
    assert program.stderr is not None
    try:
        async with asyncio.timeout(PATIENCE_SECONDS):
            said = b""
            while b"DevTools listening on ws://" not in said:
                said = await program.stderr.readline()
                assert said, "Chromium ended at once"
        host = said.decode().split("ws://")[1].split("/")[0]
        async with ClientSession() as session:
            async with session.get(f"http://{host}/json") as answer:
                pages = [each for each in await answer.json() if each["type"] == "page"]
            async with session.ws_connect(pages[0]["webSocketDebuggerUrl"], max_msg_size=0) as line:
                yield Page(line)
    finally:
        program.terminate()
        await program.communicate()
