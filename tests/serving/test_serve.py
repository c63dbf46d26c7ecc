"""`logbook serve`: what it refuses and says, and the sample's round in a real browser."""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from importlib import util
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("textual_serve", reason='the extra "browser" is not installed')

from aiohttp import ClientSession, ClientWebSocketResponse, WSMsgType

import logbook
from logbook.actions.book import open_book
from logbook.actions.trays.round import the_round
from logbook.clock import FixedClock
from logbook.serving.server import BookServer, Serving
from tests.conftest import NOW, CommandLine, SampleMaker
from tests.serving.chromium import PATIENCE_SECONDS, PROGRAM, chromium

RIGHT = "wet hands, dim light"
ROOT = str(Path(logbook.__file__).parents[1])


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[Serving]:
    """Note what would be served, and serve nothing."""
    noted: list[Serving] = []

    def run(server: BookServer, _say: Any) -> None:
        noted.append(server.serving)

    monkeypatch.setattr(BookServer, "run", run)
    monkeypatch.setattr(socket, "gethostname", lambda: "growroom")
    return noted


@pytest.fixture
def password_file(tmp_path: Path) -> str:
    """Give a file with a password that its owner alone may read."""
    path = tmp_path / "password"
    path.write_text(f"{RIGHT}\n")
    path.chmod(0o600)
    return str(path)


def test_it_serves_this_machine_alone_and_says_how_to_come_from_another(
    cli: CommandLine, started: list[Serving]
) -> None:
    ran = cli.done("serve")
    assert [(each.host, each.port, each.tabs) for each in started] == [("127.0.0.1", 8000, 8)]
    assert "The book is at http://127.0.0.1:8000" in ran.out
    assert "ssh -L 8000:127.0.0.1:8000 tester@growroom" in ran.out
    assert "Anyone logged in on this machine" in ran.err
    assert not started[0].door.locked


def test_a_tab_opens_this_book_at_this_time_in_this_name(
    cli: CommandLine, started: list[Serving]
) -> None:
    cli.done("--by", "A'B", "serve")
    command = started[0].command
    assert command.startswith(f"exec {sys.executable} -P -c ")
    assert f"--book {cli.book}" in command
    assert "--now 2026-04-14T07:42" in command
    assert "--by 'A'\"'\"'B'" in command


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.20", "growroom", "::"])  # noqa: S104
def test_other_machines_need_a_password(
    cli: CommandLine, started: list[Serving], host: str
) -> None:
    refusal = cli("serve", "--host", host).refusal
    assert "need a password" in refusal
    assert "ssh -L 8000:127.0.0.1:8000" in refusal
    assert started == []


@pytest.mark.usefixtures("started")
def test_a_further_name_needs_a_password_too(cli: CommandLine) -> None:
    assert "need a password" in cli("serve", "--name", "book.example").refusal


def test_with_a_password_it_serves_the_network_with_a_caution(
    cli: CommandLine, started: list[Serving], password_file: str
) -> None:
    ran = cli.done("serve", "--host", "0.0.0.0", "--password-file", password_file)  # noqa: S104
    assert "http://growroom:8000" in ran.out
    assert "Caution: there is no encryption here." in ran.err
    assert "SSH tunnel" in ran.err
    assert started[0].door.locked
    assert RIGHT not in ran.out + ran.err + started[0].command


def test_a_password_of_the_environment_goes_to_no_tab(
    cli: CommandLine, started: list[Serving], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOGBOOK_PASSWORD", RIGHT)
    ran = cli.done("serve")
    assert started[0].door.locked
    assert "LOGBOOK_PASSWORD" not in os.environ
    assert RIGHT not in ran.out + ran.err + started[0].command


def test_without_the_extra_it_names_it(cli: CommandLine, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(util, "find_spec", lambda _name: None)
    assert 'pip install ".[browser]"' in cli("serve").refusal


def test_settings_that_cannot_be_read_are_refused_here_and_not_in_each_tab(
    cli: CommandLine, started: list[Serving]
) -> None:
    from logbook.settings import settings_path

    settings_path().parent.mkdir(parents=True)
    settings_path().write_text('theme = "plaid"')
    assert "plaid" in cli("serve").refusal
    assert started == []


def test_a_port_in_use_is_a_sentence(cli: CommandLine) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        ran = cli("serve", "--port", str(other.getsockname()[1]))
    assert ran.code == 1
    assert "isn't free: another program may use it" in ran.err
    assert "Traceback" not in ran.err


def _free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as listening:
        return int(listening.getsockname()[1])


@asynccontextmanager
async def _served(book: Path) -> AsyncIterator[tuple[str, asyncio.subprocess.Process]]:
    """Serve a book at NOW in a process of its own; give the address."""
    port = _free_port()
    environment = {**os.environ, "PYTHONPATH": ROOT}
    environment.pop("NO_COLOR", None)
    program = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "logbook", "--book", str(book), "--now", NOW.isoformat(),
        "serve", "--port", str(port), cwd=book.parent, env=environment,
        stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE,
    )  # fmt: skip
    assert program.stderr is not None
    try:
        address = f"http://127.0.0.1:{port}"
        async with asyncio.timeout(PATIENCE_SECONDS), ClientSession() as session:
            while True:
                try:
                    async with session.get(f"{address}/page/page.css") as answer:
                        assert answer.status == 200
                        break
                except OSError:
                    assert program.returncode is None, await program.stderr.read()
                    await asyncio.sleep(0.05)
        yield address, program
    finally:
        if program.returncode is None:
            program.send_signal(signal.SIGTERM)
        await program.communicate()


@pytest.fixture
def sample(sample_book: SampleMaker, tmp_path: Path) -> Path:
    """Make the sample book as it stands at NOW."""
    path = tmp_path / "sample.book"
    sample_book(path, NOW, "Europe/Lisbon")
    return path


def _first_watering(book: Path) -> tuple[int, int]:
    """Give how many lines stand above the first watering of the round, and how many chores wait."""
    due = the_round(open_book(book, FixedClock(NOW))).due
    return next(at for at, line in enumerate(due) if line.chore in ("water", "water_look")), len(
        due
    )


def test_a_key_over_the_line_does_the_chore_and_the_tab_ends_with_the_server(sample: Path) -> None:
    above, chores = _first_watering(sample)

    async def story() -> int | None:
        async with _served(sample) as (address, program), ClientSession() as session:
            line = await session.ws_connect(
                f"{address}/ws?width=80&height=24", headers={"Origin": address}
            )
            async with asyncio.timeout(PATIENCE_SECONDS):
                drawn = b""
                while b"chores" not in drawn:
                    drawn += await _bytes_of(line)
                await line.send_json(["stdin", "\x1b[B" * above + "\r"])
                while b"undoes" not in drawn:
                    drawn += await _bytes_of(line)
                program.send_signal(signal.SIGINT)
                async for _ in line:
                    pass
                await program.wait()
            return program.returncode

    assert asyncio.run(story()) == 130
    assert _first_watering(sample)[1] == chores - 1


async def _bytes_of(line: ClientWebSocketResponse) -> bytes:
    """What a message draws; nothing where it tells the keys of the screen."""
    message = await line.receive()
    return message.data if message.type is WSMsgType.BINARY else b""


async def _end_of(process: int) -> None:
    """Wait until a process that is no child of ours has ended."""
    ended = asyncio.Event()
    handle = os.pidfd_open(process)
    asyncio.get_running_loop().add_reader(handle, ended.set)
    try:
        await ended.wait()
    finally:
        asyncio.get_running_loop().remove_reader(handle)
        os.close(handle)


@pytest.mark.skipif(
    not (hasattr(os, "pidfd_open") and Path(f"/proc/self/task/{os.getpid()}/children").exists()),
    reason="this system does not say which processes a process has started",
)
def test_a_tab_ends_when_its_server_is_killed(sample: Path) -> None:
    async def story() -> None:
        async with _served(sample) as (address, program), ClientSession() as session:
            line = await session.ws_connect(f"{address}/ws", headers={"Origin": address})
            async with asyncio.timeout(PATIENCE_SECONDS):
                drawn = b""
                while b"chores" not in drawn:
                    drawn += await _bytes_of(line)
                children = Path(f"/proc/{program.pid}/task/{program.pid}/children").read_text()  # noqa: ASYNC240
                (tab,) = children.split()
                ended = asyncio.create_task(_end_of(int(tab)))
                await asyncio.sleep(0)
                program.kill()
                await ended
            await line.close()

    asyncio.run(story())


@pytest.mark.skipif(PROGRAM is None, reason="there is no Chromium on this machine")
def test_the_round_on_a_phone_with_the_keys_on_the_screen(sample: Path, tmp_path: Path) -> None:
    above, chores = _first_watering(sample)

    async def story() -> None:
        async with _served(sample) as (address, _), chromium(tmp_path / "browser") as page:
            await page.open(address)
            await page.until(lambda: f"{chores} chores" in page.text)
            assert page.columns >= 40
            assert await _fits(page.value)
            await page.until_value(f"{_ROW}.includes('j jot')", true=True)
            assert await page.value(f"{_LETTERS}.every(each => each.clientWidth >= 44)")
            assert await page.value(f"{_LETTERS}[4].getBoundingClientRect().right") < 390
            assert await page.value("document.querySelector('.done').textContent") == "done"

            await page.touch("1")
            await page.until(lambda: "esc back" in page.text)
            await page.until_value("document.querySelector('.done').textContent", true="open")
            await page.touch("escape")
            await page.until(lambda: "esc back" not in page.text)
            await page.until_value(f"{_ROW}.includes('j jot')", true=True)

            for _ in range(above):
                await page.touch("down")
            await page.touch("enter")
            await page.until(lambda: f"{chores - 1} chores" in page.text)
            picture = await page.picture()
            await asyncio.to_thread((tmp_path / "phone.png").write_bytes, picture)
            assert page.refused == []
            outside = [each for each in page.asked if not each.startswith((address, "data:"))]
            assert outside == [f"{address.replace('http', 'ws')}/ws?{_size(outside)}"]

    asyncio.run(story())
    assert _first_watering(sample)[1] == chores - 1


_LETTERS = "[...document.querySelectorAll('.letters button')]"
_ROW = rf"{_LETTERS}.map(each => each.innerText.split('\n').join(' '))"


@pytest.mark.skipif(PROGRAM is None, reason="there is no Chromium on this machine")
def test_a_desk_s_screen_shows_what_the_cursor_is_on_beside_the_list(
    sample: Path, tmp_path: Path
) -> None:
    async def story() -> None:
        async with _served(sample) as (address, _), chromium(tmp_path / "browser") as page:
            await page.open(address, desk=True)
            await page.until(lambda: "chores" in page.text and " now " in page.text)
            assert page.columns >= 120
            await asyncio.to_thread((tmp_path / "desk.png").write_bytes, await page.picture())
            assert page.refused == []

    asyncio.run(story())


def _size(addresses: list[str]) -> str:
    return addresses[0].partition("?")[2]


async def _fits(value: Any) -> bool:
    """Whether terminal and keys stand below each other within the window, wide enough to touch.

    The row of letters is longer than the window: it is pushed to the side.
    """
    boxes = json.loads(
        await value(
            "JSON.stringify(['.xterm-screen', '#keys', ...Array.from(document.querySelectorAll("
            "'#keys div:not(.letters) button'), each => `[data-key=\"${each.dataset.key}\"]`)].map(each => {"
            "const box = document.querySelector(each).getBoundingClientRect();"
            "return [box.left, box.top, box.right, box.bottom]; }))"
        )
    )
    terminal, keys, *buttons = boxes
    assert terminal[3] <= keys[1]
    assert keys[3] <= 844
    assert all(left >= 0 and right <= 390 for left, _, right, _ in boxes)
    assert all(right - left >= 30 and below - top >= 44 for left, top, right, below in buttons)
    return True
