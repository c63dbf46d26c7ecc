"""`logbook sheet`: plain text for two widths of paper, a page for a printer, and the way back."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.conftest import CommandLine


@pytest.fixture
def sown(cli: CommandLine) -> CommandLine:
    """The command line two days after four trays were sown, with water and looks due."""
    cli.now = "2026-04-12T08:00"
    cli.done("sow", "field", "--trays", "4", "--dry")
    cli.now = "2026-04-14T07:42"
    return cli


@pytest.mark.parametrize("columns", [42, 80])
def test_no_line_is_wider_than_the_paper_and_all_codes_are_on_it(
    sown: CommandLine, columns: int
) -> None:
    lines = sown.done("sheet", "--days", "5", "--json").json["lines"]
    printed = sown.done("sheet", "--days", "5", "--columns", str(columns)).out
    assert max(map(len, printed.splitlines())) <= columns
    assert printed.count("[ ]") == len(lines) > 3
    assert "101–104" in printed


def test_the_page_needs_nothing_else_and_is_made_anew_over_itself_alone(
    sown: CommandLine, tmp_path: Path
) -> None:
    page, other = tmp_path / "round.html", tmp_path / "mine.html"
    for _ in range(2):
        sown.done("sheet", "--html", str(page))
    asked: list[str] = []

    class Seen(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            asked.extend(name for name, _ in attrs if name in ("src", "href"))

    Seen().feed(page.read_text())
    assert asked == []
    assert "101–104" in page.read_text()
    other.write_text("my own page")
    assert "already a file" in sown("sheet", "--html", str(other)).refusal
    assert other.read_text() == "my own page"


def test_what_comes_back_is_shown_and_written_on_a_yes(sown: CommandLine) -> None:
    code = sown.done("sheet", "--json").json["lines"][0]["code"]
    sown.now = "2026-04-14T19:00"
    shown = sown.done("sheet", "enter", f"{code} 8:15 not 103")
    assert "Nothing is written yet; add --yes" in shown.out
    answer = sown.done(
        "--by", "rb", "sheet", "enter", "--yes", code, "8:15", "not", "103", "--json"
    ).json
    assert answer["by"] == "rb"
    assert answer["lines"][0]["words"].endswith("08:15")
    assert " rb" in sown.done("page").out.replace("  ", " ")
    wrong = sown("sheet", "enter", "--yes", "QQ 7:30")
    assert wrong.code == 1
    assert "Nothing was written" in wrong.refusal
