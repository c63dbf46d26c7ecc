"""The server: checks who asks, gives the page, and runs one process, a Tab, for each open tab."""

import asyncio
import html
import json
import logging
import signal
from collections.abc import Awaitable, Callable, Coroutine
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from string import Template
from typing import Any

from aiohttp import WSMsgType, web
from textual_serve.app_service import AppService
from textual_serve.server import Server

from logbook.serving.bounds import SILENT_SECONDS, Bounds, listening
from logbook.serving.door import Door, host_is_known, host_names, is_loopback, same_origin
from logbook.text import Refused

PAGES = Path(__file__).parent / "pages"
MOST_TABS = 8
HEARTBEAT_SECONDS = 15
CLOSING_SECONDS = 3.0
KEY_SECONDS = 30 * 86_400
MOST_BYTES = 1 << 20
MOST_SAID = 500
SPARE_LINES, SPARE_OF_ONE = 64, 24
"""Lines beside those of the tabs: in all, and of one address (a browser opens six a page)."""
FEED = "/calendar.ics"
OPEN_TO_ALL = frozenset({"/login", "/page/page.css"})

Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


@dataclass(frozen=True)
class Serving:
    """What is served and to whom: a tab's command, where, the door, limits, `names` for it."""

    command: str
    door: Door
    host: str = "127.0.0.1"
    port: int = 8000
    tabs: int = MOST_TABS
    machine: str = "localhost"
    names: tuple[str, ...] = field(default=())
    feed: Callable[[bool], str] | None = None
    """Makes the calendar, with the deliveries or without; raises Refused."""


class BookServer(Server):
    """Textual's own server behind a door: our page, our checks, a limit on tabs."""

    def __init__(self, serving: Serving) -> None:
        super().__init__(serving.command, serving.host, serving.port, title="logbook")
        self.serving = serving
        self.door = serving.door
        self._local = is_loopback(serving.host)
        self._names = host_names(serving.host, serving.machine, serving.names)
        self._open: dict[web.WebSocketResponse, asyncio.Event] = {}
        self._feeding = asyncio.Lock()
        self.interrupted = False
        self.bounds = Bounds(serving.tabs + SPARE_LINES, serving.tabs + SPARE_OF_ONE)

    @property
    def full(self) -> bool:
        """Whether as many tabs are open as may be."""
        return len(self._open) >= self.serving.tabs

    def application(self) -> web.Application:
        """Make the web application."""
        app = web.Application(middlewares=[self._guard], client_max_size=10_000)
        app.add_routes(
            [
                web.get("/", self.handle_index),
                web.get("/ws", self.handle_websocket),
                web.get(FEED, self.handle_feed),
                web.get("/login", self.handle_login),
                web.post("/login", self.handle_password),
                web.static("/page", PAGES),
                web.static("/static", self.statics_path),
            ]
        )
        app.on_response_prepare.append(_add_headers)
        app.on_startup.append(self._mind_ctrl_c)
        app.on_shutdown.append(self.on_shutdown)
        return app

    async def _mind_ctrl_c(self, _app: web.Application) -> None:
        def end() -> None:
            self.interrupted = True
            raise web.GracefulExit

        asyncio.get_running_loop().add_signal_handler(signal.SIGINT, end)

    def run(self, say: Callable[[str], None]) -> None:
        """Serve until ctrl+c, which leaves `interrupted`, or SIGTERM; `say` gets sentences. Refused: the port cannot be had."""
        sentences = _Sentences(say)
        for name in ("textual-serve", "aiohttp.server", "asyncio"):
            logging.getLogger(name).addHandler(sentences)
            logging.getLogger(name).propagate = False
        serving = self.serving
        try:
            web.run_app(
                self.application(), sock=listening(serving.host, serving.port, self.bounds),
                print=None, access_log=None, shutdown_timeout=CLOSING_SECONDS,
                keepalive_timeout=SILENT_SECONDS,
            )  # fmt: skip
        except OSError as fault:
            raise Refused(
                f"Port {serving.port} of {serving.host} isn't free: another program may use it, "
                "or the address is not this machine's. Give another with --port or --host."
            ) from fault

    @web.middleware
    async def _guard(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        if request.transport is not None:
            self.bounds.asked(request.transport.get_extra_info("peername")[:2])
        if not host_is_known(request.host, self._names, loopback=self._local):
            raise web.HTTPForbidden(
                text="This name is not known here. Use the machine's address, or name it "
                "with --name when starting the server."
            )
        from_page = same_origin(request.headers.get("Origin", ""), request.host)
        if not from_page and (request.path == "/ws" or request.method not in ("GET", "HEAD")):
            raise web.HTTPForbidden(text="Only the logbook's own page may ask for this.")
        if request.path not in OPEN_TO_ALL and not self._is_in(request):
            if request.path == "/":
                raise web.HTTPSeeOther("/login")
            raise web.HTTPUnauthorized(text="Type the password first, at /login.")
        return await handler(request)

    @property
    def _cookie(self) -> str:
        return f"logbook-{self.serving.port}"

    def _is_in(self, request: web.Request) -> bool:
        if request.path == FEED and self.door.feeds(request.query.get("key", "")):
            return True
        return self.door.knows(request.cookies.get(self._cookie, ""))

    async def handle_feed(self, request: web.Request) -> web.StreamResponse:
        """The calendar of the weeks to come; "?deliveries" adds these."""
        if self.serving.feed is None:
            raise web.HTTPNotFound(text="There is no calendar here.")
        async with self._feeding:
            try:
                made = await asyncio.to_thread(self.serving.feed, "deliveries" in request.query)
            except Refused as refused:
                raise web.HTTPServiceUnavailable(text=str(refused)) from refused
        return web.Response(text=made, content_type="text/calendar", charset="utf-8")

    async def handle_login(self, request: web.Request) -> web.StreamResponse:
        """Ask for the password, unless it is known already."""
        if self._is_in(request):
            raise web.HTTPSeeOther("/")
        return _page("login.html", "")

    async def handle_password(self, request: web.Request) -> web.StreamResponse:
        """Take the password; the right one gets a key that ends with the server."""
        if not self.door.locked:
            raise web.HTTPSeeOther("/")
        address = request.remote or ""
        if self.door.crowded(address):
            return _page("login.html", "Too many attempts at once; wait a little.", 429)
        try:
            async with asyncio.timeout(SILENT_SECONDS):
                given = (await request.post()).get("password", "")
        except TimeoutError as fault:
            raise web.HTTPRequestTimeout from fault
        key = await self.door.key_for(given if isinstance(given, str) else "", address)
        if key is None:
            return _page("login.html", "That is not the password.", 403)
        response = web.HTTPSeeOther("/")
        response.set_cookie(
            self._cookie, key, max_age=KEY_SECONDS, httponly=True, samesite="Strict"
        )
        raise response

    async def handle_index(self, request: web.Request) -> web.StreamResponse:
        """The page with the terminal and the keys; else it says that all tabs are in use."""
        if self.full:
            return _page("said.html", self._full_words, 503)
        return web.FileResponse(PAGES / "book.html")

    @property
    def _full_words(self) -> str:
        return f"All {self.serving.tabs} tabs are in use: close one, or wait half a minute if one lost its connection."

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """Run a process for a tab until either ends."""
        if self.full:
            raise web.HTTPServiceUnavailable(text=self._full_words)
        try:
            size = terminal_size(request.query["width"], request.query["height"])
        except (KeyError, ValueError):
            size = 80, 24
        line = web.WebSocketResponse(
            heartbeat=HEARTBEAT_SECONDS, timeout=CLOSING_SECONDS, max_msg_size=MOST_BYTES
        )
        self._open[line] = asyncio.Event()
        try:
            await line.prepare(request)
            await self._run_tab(line, size)
        finally:
            self._open.pop(line).set()
        return line

    async def _run_tab(self, line: web.WebSocketResponse, size: tuple[int, int]) -> None:
        async def close() -> None:
            await line.close()

        tab = Tab(
            self.serving.command, write_bytes=line.send_bytes, write_str=line.send_str,
            close=close, download_manager=self.download_manager,
        )  # fmt: skip
        try:
            await tab.start(*size)
            await tab.listen(line)
        finally:
            await _to_its_end(tab.stop())

    async def on_shutdown(self, app: web.Application) -> None:
        """Close all tabs and wait for their processes; what was being typed is kept by them."""
        still_open = dict(self._open)
        await asyncio.gather(*(line.close() for line in still_open))
        await asyncio.gather(*(ended.wait() for ended in still_open.values()))


class _Sentences(logging.Handler):
    """Hands warnings of the server on as sentences, without traces or local values; not without end."""

    def __init__(self, say: Callable[[str], None]) -> None:
        super().__init__(logging.WARNING)
        self._say = say
        self._said = 0

    def emit(self, record: logging.LogRecord) -> None:
        self._said += 1
        if self._said > MOST_SAID:
            return
        who = "A tab" if record.name == "textual-serve" else "The server"
        self._say(f"{who}: {record.getMessage()[:200].rstrip('.')}.")
        if self._said == MOST_SAID:
            self._say("There are too many of these; the rest are left out until the next start.")


async def _to_its_end(ending: Coroutine[object, object, None]) -> None:
    """Wait for something to end, also when the one who waits is cancelled meanwhile."""
    task = asyncio.create_task(ending)
    try:
        await asyncio.shield(task)
    except asyncio.CancelledError:
        await task
        raise


def _page(name: str, sentence: str, status: int = 200) -> web.Response:
    words = Template((PAGES / name).read_text(encoding="utf-8"))
    text = words.substitute(sentence=html.escape(sentence))
    return web.Response(text=text, content_type="text/html", status=status)


async def _add_headers(request: web.Request, response: web.StreamResponse) -> None:
    """Let the page load and call nothing but this server, and nobody else frame it."""
    host = request.host
    response.headers.update(
        {
            "Content-Security-Policy": "default-src 'none'; script-src 'self'; "
            "style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
            f"connect-src 'self' ws://{host} wss://{host}; "
            "form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
            "X-Content-Type-Options": "nosniff",
            "X-Frame-Options": "DENY",
            "Referrer-Policy": "same-origin",
            "Cache-Control": "no-cache" if request.path.startswith("/static/") else "no-store",
        }
    )


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

    async def on_meta(self, data: bytes) -> None:
        """Hand on what the keys do now, which the page's own row of keys shows."""
        told = json.loads(data)
        if told["type"] == "keys":
            await self.remote_write_str(json.dumps(["keys", told["keys"]]))
        else:
            await super().on_meta(data)

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
