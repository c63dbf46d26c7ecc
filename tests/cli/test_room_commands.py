"""The commands about lamps, light, power, air and water, and the sensor's feed."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from logbook.cli.app import logbook, run
from tests.actions.room_book import SHELF, moment, room_book

NOW = "2026-04-14T12:00"


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("LOGBOOK_BY", "ab")
    return room_book(tmp_path, at=moment(1)).file.path


def call(path: Path, *words: str) -> tuple[int, str, str]:
    """Run a command; give its exit code and what it printed."""
    runner = CliRunner()
    with runner.isolation() as (out, err, _):
        code = run(["--book", str(path), "--now", NOW, *words])
        return code, out.getvalue().decode(), err.getvalue().decode()


def told(path: Path, *words: str) -> Any:
    code, out, err = call(path, *words, "--json")
    assert code == 0, err
    return json.loads(out)


def test_lamps_tariff_circuit_and_bills(path: Path) -> None:
    lamps = ("--lamps", "3", "--watts", "19.3 W", "--amps", "0.17", "--volts", "120")
    code, out, _ = call(path, "lamps", "--place", "Rack 1", *lamps, "--height", "8.25in")
    assert code == 0
    assert "21 cm above the shelf" in out
    assert call(path, "tariff", "0.13", "--from", "2026-01-01", "--hours", "17-20=0.4")[0] == 0
    assert (
        call(path, "circuit", "A", "--breaker", "15", "--volts", "120", "--place", "Rack 1")[0] == 0
    )
    shelf = told(path, "lamps")["shelves"][0]
    assert (shelf["watts"], shelf["hours"]) == (57.9, "06:00–22:00")
    bills = told(path, "bills")
    assert bills["today"]["kwh"] == pytest.approx(2 * 0.9264)
    (circuit,) = bills["circuits"]
    assert (circuit["continuous_limit_amps"], circuit["within"]) == (12, True)
    assert told(path, "tariff")["tariffs"][0]["other_hours"][0]["hours"] == "17:00–20:00"
    assert "drip loop" in call(path, "circuit")[1]


def test_light_is_written_and_read(path: Path) -> None:
    code, out, _ = call(
        path, "light", "--place", SHELF, "--ppfd", "180", "200", "220", "--height", "21", "cm"
    )
    assert code == 0
    assert "PPFD 200" in out
    (shelf,) = told(path, "light", "--place", SHELF)["shelves"]
    assert shelf["dli_mol_m2_day"] == pytest.approx(11.52)
    assert shelf["surveys"][0]["height_mm"] == 210
    call(path, "light", "--place", SHELF, "--grid", "2x2", "--spot", "1,1=100", "2,2=120")
    assert len(told(path, "light", "--place", SHELF)["shelves"][0]["surveys"][1]["spots"]) == 2


def test_air_water_and_solution_are_written_and_read(path: Path) -> None:
    assert call(path, "air", "70F", "55", "%", "--place", "Rack 1", "--still")[0] == 0
    air = told(path, "air", "--place", SHELF)
    assert air["measured_at"] == "Rack 1"
    assert air["readings"][0]["celsius"] == pytest.approx(21.11)
    assert call(path, "air", "-5C", "63")[0] == 0
    assert call(path, "water", "--ph", "7.2", "--ec", "1200 µS/cm")[0] == 0
    assert told(path, "water")["readings"][0]["ec_ms_cm"] == pytest.approx(1.2)
    code, _, err = call(
        path, "cleaning", "trays", "--method", "soak, rinse", "--with", "bleach",
        "--stock", "5.25%", "--want", "200ppm", "--volume", "10L",
    )  # fmt: skip
    assert code == 0
    assert "38.1 ml" in err
    assert "Never mix" in err
    assert told(path, "cleaning")["uses"][0]["want_percent"] == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("air", "21", "130"), "0 to 100 %"),
        (("air", "70", "50"), "F"),
        (("air", "21"), "temperature and humidity"),
        (("air", "--every", "5min"), "--feed"),
        (("light", "--place", SHELF, "--ppfd", "-5"), "0 to 5,000"),
        (("light", "--place", SHELF, "--grid", "2x2", "--spot", "3,1=200"), "outside the grid"),
        (("light", "--place", SHELF, "--grid", "2x2", "--ppfd", "200"), "4 spots"),
        (("light", "--place", SHELF, "--lux", "14000"), "kind of lamp"),
        (("light", "--ppfd", "200"), "which shelf"),
        (("lamps", "--place", SHELF, "--lamps", "0", "--watts", "18"), "1 to 200"),
        (("lamps", "--watts", "18"), "which shelf"),
        (("lamps", "--place", SHELF, "--lamps", "4"), "watts of one lamp"),
        (("tariff", "-1"), "must be 0 or more|No such option"),
        (("tariff", "0.3", "--hours", "17-17=0.4"), "Both times"),
        (("tariff", "0.3", "--hours", "17-20"), "hours = price"),
        (("circuit", "A"), "breaker"),
        (("places", "change", SHELF, "--lamps", "06:00-06:00"), "Both times are"),
        (("water", "--ph", "15"), "0 to 14"),
        (("cleaning", "trays"), "method"),
        (("did", "water", "101", "--ph", "6"), "no tray"),
        (("bills", "--batch", "9"), "no batch 9"),
        (("bills", "--days", "0"), "1 to 366"),
    ],
)
def test_wrong_input_is_a_sentence_and_writes_nothing(
    path: Path, words: tuple[str, ...], said: str
) -> None:
    import re

    code, out, err = call(path, *words)
    assert code in (1, 2)
    assert re.search(said, err), err
    assert "Traceback" not in out + err
    assert call(path, "page")[1].endswith("No entries.\n")


def test_every_command_has_help() -> None:
    for name in ("lamps", "light", "air", "water", "cleaning", "tariff", "circuit", "bills"):
        shown = CliRunner().invoke(logbook, [name, "--help"])
        assert shown.exit_code == 0, shown.output


def _feed(path: Path, *more: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "logbook", "--book", str(path), "--now", NOW]
    return subprocess.Popen(
        [*command, "air", "--feed", "--place", SHELF, *more],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )


GOOD = b'{"celsius": 21.4, "humidity": 63}\n'


def test_a_feed_writes_when_its_input_ends_and_counts_bad_lines(path: Path) -> None:
    feed = _feed(path)
    _, err = feed.communicate(
        b"garbage\n" * 20_000 + b"x" * 300_000 + b"\n" + GOOD[:-1], timeout=60
    )
    assert feed.returncode == 0
    assert b"1 reading written in 1 entry, 20,001 bad lines skipped" in err
    (reading,) = told(path, "air", "--place", SHELF)["readings"]
    assert reading["humidity_percent"] == 63


def test_a_feed_of_bad_lines_alone_is_refused_and_says_so_as_json(path: Path) -> None:
    feed = _feed(path, "--json")
    out, _ = feed.communicate(b"garbage\n[]\n", timeout=60)
    assert feed.returncode == 1
    told = json.loads(out)
    assert (told["lines_taken"], told["lines_bad"]) == (0, 2)


@pytest.mark.parametrize(("number", "code"), [(signal.SIGTERM, 0), (signal.SIGINT, 130)])
def test_a_feed_that_is_told_to_end_writes_what_it_holds(
    path: Path, number: signal.Signals, code: int
) -> None:
    feed = _feed(path)
    assert feed.stdin is not None
    assert feed.stderr is not None
    feed.stdin.write(GOOD + b"garbage\n")
    feed.stdin.flush()
    _wait_until_read(feed)
    feed.send_signal(number)
    assert feed.wait(60) == code
    assert b"1 reading written" in feed.stderr.read()
    feed.stdin.close()
    feed.stderr.close()
    if feed.stdout is not None:
        feed.stdout.close()
    assert len(told(path, "air", "--place", SHELF)["readings"]) == 1


def _wait_until_read(feed: subprocess.Popen[bytes]) -> None:
    """Wait until the pipe is empty: what was written has been taken."""
    import array
    import fcntl
    import termios

    assert feed.stdin is not None
    left = array.array("i", [1])
    end = time.monotonic() + 60
    while left[0] and time.monotonic() < end:
        fcntl.ioctl(feed.stdin.fileno(), termios.FIONREAD, left)
        time.sleep(0.01)


def test_what_is_held_is_written_when_its_time_has_come(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from logbook.actions.book import open_book
    from logbook.actions.room.air_feed import Feed
    from logbook.cli.room import feeding
    from logbook.clock import FixedClock

    feed = Feed(open_book(path, FixedClock(moment(14, 12))), SHELF)
    source, sink = os.pipe()
    ended, never = os.pipe()
    os.write(sink, GOOD.replace(b"}", b', "at": "2026-04-14T07:00:00+00:00"}'))
    os.close(sink)
    with os.fdopen(source) as stdin:
        monkeypatch.setattr(sys, "stdin", stdin)
        feeding._pump(feed, 0.0, ended)
    os.close(ended)
    os.close(never)
    assert (feed.held, feed.written, feed.entries) == (0, 1, 1)


def test_a_feed_says_when_its_pace_or_place_cannot_be(path: Path) -> None:
    assert "once a minute at most" in call(path, "air", "--feed", "--every", "5s")[2]
    assert "no place" in call(path, "air", "--feed", "--place", "Attic")[2]
    assert "none with --feed" in call(path, "air", "21", "50", "--feed")[2]


def test_lamp_hours_taken_from_trays_in_the_light_are_said_at_once(path: Path) -> None:
    sown = ("sow", "radish", "--trays", "2", "--place", SHELF, "--at", "2026-04-10T08:00")
    assert call(path, *sown)[0] == 0
    for chore in ("weight_off", "light_on"):
        assert call(path, "did", chore, "101-102")[0] == 0
    assert "In the dark" not in call(path, "places", "change", SHELF, "--slots", "7")[2]
    code, out, err = call(path, "places", "change", SHELF, "--lamps", "none")
    assert (code, out) == (0, f"{SHELF} is changed.\n")
    assert err.startswith(f"In the dark, as {SHELF} has no lamp hours: 101 102.")
    for shelf, slots in ((SHELF, "2"), ("Rack 1/Shelf 2", "1")):
        assert call(path, "places", "change", shelf, "--slots", slots)[0] == 0
    assert f"{SHELF}      2       2  full  dark" in call(path, "places")[1]


def test_a_day_of_regrowth_without_expected_grams_says_not_known(path: Path) -> None:
    sown = ("sow", "radish", "--trays", "2", "--place", SHELF, "--at", "2026-04-06T08:00")
    assert call(path, *sown)[0] == 0
    for chore in ("weight_off", "light_on"):
        assert call(path, "did", chore, "101-102", "--at", "2026-04-08T08:00")[0] == 0
    assert call(path, "weigh", "101-102", "500", "--keep", "--sure")[0] == 0
    days = call(path, "due", "--days", "30")[1].partition("By day")[2]
    assert days.strip().endswith("radish, 2 trays, not known")
