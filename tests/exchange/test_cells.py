"""Cells: read back the same, and no spreadsheet runs them."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.exchange.column import MARK, Column, Kind, guarded
from logbook.text import HARMFUL, Refused

# The marks that begin a formula in spreadsheet programs: OWASP, "CSV Injection" (from memory).
RUNS = ("=", "+", "-", "@", "\t", "\r")
TEXT = st.text() | st.builds(
    "".join, st.tuples(st.sampled_from([*RUNS, "'", " ", "\n"]), st.text())
)


@given(TEXT)
def test_any_text_comes_back_the_same_and_begins_with_no_formula(text: str) -> None:
    cell = guarded(text)
    assert cell.removeprefix(MARK) == text
    assert not cell.lstrip(" ").startswith(RUNS)


@given(TEXT.filter(lambda text: not HARMFUL.search(text)), st.booleans())
def test_a_text_cell_comes_back_through_csv(text: str, nullable: bool) -> None:
    file = io.StringIO(newline="")
    csv.writer(file).writerow([Column("x", "text", nullable=nullable).write(text), "next"])
    file.seek(0)
    ((cell, following),) = csv.reader(file, strict=True)
    assert Column("x", "text", nullable=nullable).read(cell) == text
    assert following == "next"


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_number_is_written_as_a_number_and_comes_back(number: float) -> None:
    cell = Column("x", "real", nullable=False).write(number)
    assert float(cell) == number
    assert Column("x", "real", nullable=False).read(cell) == number


@given(st.integers(-(2**63), 2**63 - 1))
def test_a_whole_number_comes_back(number: int) -> None:
    assert (
        Column("x", "whole", nullable=True).read(Column("x", "whole", nullable=True).write(number))
        == number
    )


@pytest.mark.parametrize("kind", ["whole", "real", "truth", "moment", "text"])
def test_nothing_comes_back_as_nothing(kind: Kind) -> None:
    assert (
        Column("x", kind, nullable=True).read(Column("x", kind, nullable=True).write(None)) is None
    )


def test_moments_are_iso_8601_in_utc() -> None:
    moment = Column("x", "moment", nullable=False)
    for kept in (1_776_151_800, "2026-04-14 07:30:00.000000"):
        assert moment.write(kept) == "2026-04-14T07:30:00Z"
    assert moment.read("2026-04-14T07:30:00Z") == 1_776_151_800
    assert moment.read("2026-04-14T09:30:00.25+02:00") == 1_776_151_800.25
    assert moment.write(1_776_151_800.25) == "2026-04-14T07:30:00.250000Z"


@pytest.mark.parametrize(
    ("cell", "kind", "words"),
    [
        ("1.5", "whole", "not a whole number"),
        ("9" * 30, "whole", "not a whole number"),
        ("nan", "real", "a number"),
        ("1e999", "real", "a number"),
        ("1,5", "real", "a number"),
        ("TRUE", "truth", "neither true nor false"),
        ("2026-02-30T00:00:00Z", "moment", "a moment"),
        ("2026-04-14T07:30:00", "moment", "no offset"),
        ("0001-01-01T00:00:00+14:00", "moment", "between the years"),
        ("9999-12-31T23:59:59-12:00", "moment", "between the years"),
        ("", "whole", "is empty"),
        ("\x1b[31m", "text", "control codes"),
    ],
)
def test_what_is_no_such_value_is_refused(cell: str, kind: Kind, words: str) -> None:
    with pytest.raises(Refused, match=words):
        Column("x", kind, nullable=False).read(cell)
