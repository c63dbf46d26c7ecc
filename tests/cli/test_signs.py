"""Plain commands where the terminal cannot show our signs: what is written is never said to fail."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import logbook
from logbook.actions.book import Book
from logbook.actions.trays.noticing import jot
from logbook.cli.signs import plain_line
from tests.actions.days import sow_at, stand_at

ROOT = Path(logbook.__file__).parents[1]
LATIN = {"PYTHONIOENCODING": "iso-8859-15"}
NOW = "2026-04-02T08:00"


def run(book: Book, more: dict[str, str], *words: str) -> subprocess.CompletedProcess[bytes]:
    """Run the program in a process of its own."""
    program = [sys.executable, "-m", "logbook", "--book", str(book.file.path), "--now", NOW]
    return subprocess.run(
        [*program, *words], cwd=ROOT, env={**os.environ, **more}, capture_output=True, check=False
    )


def test_an_entry_is_confirmed_where_the_encoding_lacks_our_signs(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3)
    watered = run(book, LATIN, "did", "water", "101-103", "--note", "20–22 °C, é")
    assert (watered.returncode, watered.stderr) == (0, b"")
    assert watered.stdout.isascii()
    assert '"20-22 °C, é"' in run(book, LATIN, "page").stdout.decode("iso-8859-15")
    shown = run(book, LATIN, "page", "--json")
    assert shown.stdout.isascii()
    assert json.loads(shown.stdout)["entries"][-1]["note"] == "20–22 °C, é"


def test_a_refusal_is_said_where_there_is_ascii_alone(book: Book) -> None:
    refused = run(book, {"PYTHONIOENCODING": "ascii"}, "did", "water", "9", "--note", "–")
    assert refused.returncode == 1
    assert refused.stderr.decode("ascii").startswith("There is no tray 9")


@pytest.mark.parametrize(
    ("signs", "shown_as"), [("C", "21 C +- 1 - é"), ("C.UTF-8", "21 °C ± 1 – é")]
)
def test_a_terminal_gets_the_signs_that_the_screens_would_use(
    book: Book, signs: str, shown_as: str
) -> None:
    sow_at(book, "2026-04-01 08:00", 1)
    stand_at(book, "2026-04-02 08:00")
    jot(book, [101], "21 °C ± 1 – é")
    ours, theirs = pty.openpty()
    try:
        subprocess.run(
            [sys.executable, "-m", "logbook", "--book", book.file.path, "--now", NOW, "page"],
            cwd=ROOT, env={**os.environ, "LC_ALL": signs, "TERM": "xterm"},
            stdin=subprocess.DEVNULL, stdout=theirs, check=True,
        )  # fmt: skip
        shown = os.read(ours, 4096).decode()
    finally:
        os.close(ours)
        os.close(theirs)
    assert shown_as in shown


@pytest.mark.parametrize(
    ("encoding", "text", "plain"),
    [
        ("iso-8859-1", "5–6 µmol m⁻² s⁻¹ … “so” ± 2 ×", '5-6 µmol m-² s-¹ ... "so" ± 2 ×'),
        ("iso-8859-15", "½ → 日", " 1/2 > ?"),
        ("ascii", "21.4 °C ± 1 µmol², é", "21.4 C +- 1 umol2, ?"),
        ("cp437", "5 € – é", "5 EUR  - é"),
    ],
)
def test_a_sign_that_an_encoding_lacks_has_a_plain_one(
    encoding: str, text: str, plain: str
) -> None:
    assert plain_line(text, encoding, ours=False) == plain


@given(
    st.text(), st.sampled_from(["ascii", "iso-8859-1", "cp437", "koi8-r", "utf-8"]), st.booleans()
)
def test_any_text_can_be_written(text: str, encoding: str, ours: bool) -> None:
    plain_line(text, encoding, ours=ours).encode(encoding)
