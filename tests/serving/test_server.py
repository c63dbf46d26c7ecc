"""The server: who gets the page and the line, what it says when full, and what it never loads."""

from __future__ import annotations

import asyncio
import logging
import re
import shlex
import sys
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

pytest.importorskip("textual_serve", reason='the extra "browser" is not installed')

from aiohttp import ClientSession, CookieJar, WSMsgType, WSServerHandshakeError, web
from aiohttp.test_utils import TestClient, TestServer

from logbook.serving import server as server_module
from logbook.serving.bounds import listening
from logbook.serving.door import Door, Password
from logbook.serving.server import PAGES, BookServer, Serving, read_message

if TYPE_CHECKING:
    from aiohttp import ClientWebSocketResponse

    Client = TestClient[web.Request, web.Application]

RIGHT = "wet hands, dim light"
ECHO = """
import os, sys
def write(kind, text):
    os.write(1, kind + len(text).to_bytes(4, "big") + text)
os.write(1, b"__GANGLION__\\n")
write(b"D", os.environ["COLUMNS"].encode() + b" columns")
while kind := sys.stdin.buffer.read(1):
    text = sys.stdin.buffer.read(int.from_bytes(sys.stdin.buffer.read(4), "big"))
    write(b"D", kind + b" " + text)
    if b"quit" in text:
        break
"""
"""Speaks as an app in a tab does, and tells what it was sent."""


def _echo() -> str:
    return f"exec {shlex.join([sys.executable, '-c', ECHO])}"


def _visit(story: Callable[[Client], Awaitable[None]], password: str = "", **serving: Any) -> None:
    """Run a story with a client of a server that is its own for this test."""

    async def run() -> None:
        door = Door(Password(password, "here") if password else None, wrong_seconds=0)
        server = BookServer(Serving(serving.pop("command", _echo()), door, **serving))
        listening = TestServer(server.application())
        async with TestClient(listening, cookie_jar=CookieJar(unsafe=True)) as client:
            await story(client)

    asyncio.run(run())


def _origin(client: Client) -> str:
    return f"http://{client.host}:{client.port}"


async def _line(client: Client, **headers: str) -> ClientWebSocketResponse:
    headers.setdefault("Origin", _origin(client))
    return await client.ws_connect("/ws?width=40&height=30", headers=headers)


@contextmanager
def _refused(status: int) -> Iterator[None]:
    with pytest.raises(WSServerHandshakeError) as refused:
        yield
    assert refused.value.status == status


def test_the_page_fits_a_phone_and_has_the_keys() -> None:
    async def story(client: Client) -> None:
        answer = await client.get("/")
        page = await answer.text()
        assert answer.status == 200
        assert 'name="viewport"' in page
        assert "width=device-width" in page
        for key in (*"0123456789?", "escape", "enter", "up", "down", "left", "right"):
            assert f'data-key="{key}"' in page
        for path in re.findall(r'(?:src|href)="(/[^"]+)"', page):
            assert (await client.get(path)).status == 200, path

    _visit(story)


def test_nothing_is_loaded_from_outside() -> None:
    for file in PAGES.iterdir():
        words = file.read_text(encoding="utf-8")
        assert not re.search(r"(https?|wss?):?//|@import|@font-face", words), file.name

    async def story(client: Client) -> None:
        for path in ("/", "/page/page.css", "/static/js/textual.js", "/nothing"):
            headers = (await client.get(path)).headers
            policy = headers["Content-Security-Policy"]
            assert "default-src 'none'" in policy
            assert "font-src" not in policy
            assert "frame-ancestors 'none'" in policy
            outside = set(re.findall(r"\w+://[^\s;]+", policy))
            assert outside == {
                f"ws://{client.host}:{client.port}",
                f"wss://{client.host}:{client.port}",
            }
            assert headers["X-Content-Type-Options"] == "nosniff"

    _visit(story)


def test_a_line_carries_keys_sizes_and_pings() -> None:
    async def story(client: Client) -> None:
        line = await _line(client)
        assert await line.receive_bytes() == b"40 columns"
        await line.send_json(["stdin", "\x1b"])
        assert await line.receive_bytes() == b"D \x1b"
        await line.send_str("no JSON")
        await line.send_json(["resize", {"width": 10**9, "height": -5}])
        assert await line.receive_bytes() == b'M {"type": "resize", "width": 1000, "height": 5}'
        await line.send_json(["ping", "12"])
        assert await line.receive_json() == ["pong", "12"]
        await line.close()

    _visit(story)


def test_the_line_is_closed_when_the_process_ends_in_whatever_way() -> None:
    async def story(client: Client) -> None:
        line = await _line(client)
        assert (await line.receive()).data in (1000, None)
        assert line.closed

    _visit(story, command="exec false")


@pytest.mark.parametrize("origin", ["http://elsewhere.example", "null", ""])
def test_another_page_cannot_open_the_line(origin: str) -> None:
    async def story(client: Client) -> None:
        with _refused(403):
            await _line(client, Origin=origin)

    _visit(story)


def test_a_name_that_is_not_ours_gets_nothing() -> None:
    async def story(client: Client) -> None:
        name = {"Host": "elsewhere.example:8000"}
        for path in ("/", "/login", "/page/page.css"):
            answer = await client.get(path, headers=name)
            assert answer.status == 403
            assert "not known here" in await answer.text()
        with _refused(403):
            await _line(client, Origin="http://elsewhere.example:8000", **name)

    _visit(story)


def test_when_all_tabs_are_in_use_a_sentence_says_so_until_one_is_closed() -> None:
    async def story(client: Client) -> None:
        lines = [await _line(client), await _line(client)]
        answer = await client.get("/")
        assert answer.status == 503
        assert "All 2 tabs are in use: close one" in await answer.text()
        with _refused(503):
            await _line(client)
        await lines[0].close()
        assert (await lines[0].receive()).type is WSMsgType.CLOSED
        async with asyncio.timeout(10):
            while (await client.get("/")).status == 503:
                pass
        await (await _line(client)).close()

    _visit(story, tabs=2)


def test_with_a_password_nothing_is_given_before_it() -> None:
    async def story(client: Client) -> None:
        answer = await client.get("/", allow_redirects=False)
        assert (answer.status, answer.headers["Location"]) == (303, "/login")
        for path in ("/static/js/textual.js", "/page/line.js", "/page/book.html"):
            assert (await client.get(path)).status == 401
        with _refused(401):
            await _line(client)
        form = await (await client.get("/")).text()
        assert 'type="password"' in form

    _visit(story, password=RIGHT)


def test_the_right_password_opens_the_page_and_the_line() -> None:
    async def story(client: Client) -> None:
        headers = {"Origin": _origin(client)}
        wrong = await client.post("/login", data={"password": "a guess"}, headers=headers)
        assert wrong.status == 403
        assert "That is not the password." in await wrong.text()
        assert "Set-Cookie" not in wrong.headers
        right = await client.post(
            "/login", data={"password": RIGHT}, headers=headers, allow_redirects=False
        )
        assert (right.status, right.headers["Location"]) == (303, "/")
        cookie = right.headers["Set-Cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=Strict" in cookie
        assert RIGHT not in str(right.headers)
        assert 'id="terminal"' in await (await client.get("/")).text()
        line = await _line(client)
        assert await line.receive_bytes() == b"40 columns"
        await line.close()
        with _refused(403):
            await _line(client, Origin="http://elsewhere.example")
        async with ClientSession() as stranger:
            answer = await stranger.get(f"{_origin(client)}/static/js/textual.js")
            assert answer.status == 401

    _visit(story, password=RIGHT)


def test_a_form_of_another_page_cannot_try_passwords() -> None:
    async def story(client: Client) -> None:
        for headers in ({}, {"Origin": "http://elsewhere.example"}):
            answer = await client.post("/login", data={"password": RIGHT}, headers=headers)
            assert answer.status == 403
            assert "Set-Cookie" not in answer.headers

    _visit(story, password=RIGHT)


def test_a_crowd_of_guesses_is_turned_away(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Door, "crowded", lambda _door, _address: True)

    async def story(client: Client) -> None:
        answer = await client.post(
            "/login", data={"password": RIGHT}, headers={"Origin": _origin(client)}
        )
        assert answer.status == 429

    _visit(story, password=RIGHT)


async def _knock(port: int) -> tuple[asyncio.StreamReader, asyncio.StreamWriter]:
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    writer.write(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n")
    return reader, writer


def test_half_requests_are_few_and_end_by_themselves() -> None:
    """What came whole is answered; what is too much is closed at once, what says nothing in time."""

    async def run() -> None:
        server = BookServer(Serving(_echo(), Door(None)))
        server.bounds.most_of_one = 3
        (line,) = listening("127.0.0.1", 0, server.bounds)
        runner = web.AppRunner(server.application())
        await runner.setup()
        await web.SockSite(runner, line).start()
        port = line.getsockname()[1]
        try:
            whole, half, other = [await _knock(port) for _ in range(3)]
            whole[1].write(b"\r\n")
            assert (await whole[0].readline()).startswith(b"HTTP/1.1 200")
            over = await _knock(port)
            assert await over[0].read() == b""

            waiting = dict(server.bounds._silent)
            assert len(waiting) == 2
            for timer in waiting.values():  # as if SILENT_SECONDS had passed
                timer._run()
            assert await half[0].read() == await other[0].read() == b""

            again = await _knock(port)
            again[1].write(b"\r\n")
            assert (await again[0].readline()).startswith(b"HTTP/1.1 200")
            for each in (whole, half, other, over, again):
                each[1].close()
        finally:
            await runner.cleanup()

    asyncio.run(run())


def test_what_the_server_says_of_itself_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(server_module, "MOST_SAID", 3)
    said: list[str] = []
    sentences = server_module._Sentences(said.append)
    for _ in range(1000):
        sentences.emit(logging.LogRecord("asyncio", logging.ERROR, "", 1, "x" * 900, None, None))
    assert len(said) == 4
    assert max(map(len, said)) < 250


def test_open_tabs_end_with_the_server() -> None:
    async def run() -> None:
        server = BookServer(Serving(_echo(), Door(None)))
        async with TestClient(TestServer(server.application())) as client:
            line = await _line(client)
            await line.receive_bytes()
            await client.server.close()
            assert not server._open

    asyncio.run(run())


@pytest.mark.parametrize(
    "text",
    ["", "7", "[]", "[1]", '["stdin"]', '["stdin", 5]', '["resize", {}]', '["resize", "x"]', "{}",
     '["ping", null]', '["quit"]', '["resize", {"width": null, "height": 1}]', '[["stdin"], "x"]',
     '["resize", {"width": 1e999, "height": 1}]'],
)  # fmt: skip
def test_messages_that_make_no_sense_are_passed_over(text: str) -> None:
    assert read_message(text) == ("", None)


def test_the_pages_are_in_the_package() -> None:
    assert Path(server_module.__file__).parent == PAGES.parent
    assert {file.name for file in PAGES.iterdir()} == {
        "book.html", "login.html", "said.html", "page.css", "line.js",
    }  # fmt: skip


def test_the_calendar_is_behind_the_same_door() -> None:
    asked = []

    def feed(deliveries: bool) -> str:
        asked.append(deliveries)
        return "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"

    async def story(client: Client) -> None:
        for address in ("/calendar.ics", "/calendar.ics?key=", "/calendar.ics?key=open sesame"):
            assert (await client.get(address)).status == 401
        key = Password("open sesame", "here").feed_key
        answer = await client.get(f"/calendar.ics?key={key}&deliveries")
        assert (answer.status, answer.content_type) == (200, "text/calendar")
        assert (await client.get("/static/js/textual.js?key=" + key)).status == 401
        assert asked == [True]

    _visit(story, "open sesame", feed=feed)


def test_without_a_password_the_calendar_is_open_like_the_screens() -> None:
    async def story(client: Client) -> None:
        assert (await client.get("/calendar.ics")).status == 200
        elsewhere = await client.get("/calendar.ics", headers={"Host": "evil.example"})
        assert elsewhere.status == 403

    _visit(story, feed=lambda _: "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n")
