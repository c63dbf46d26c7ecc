"""A month on one page: text, CSV, HTML that needs nothing else."""

import csv
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from tests.conftest import NOW, CommandLine, SampleMaker


@pytest.fixture
def sample(
    tmp_path: Path, sample_book: SampleMaker, capsys: pytest.CaptureFixture[str]
) -> CommandLine:
    """The command line on the sample."""
    sample_book(tmp_path / "sample.book", NOW, "Europe/Lisbon")
    return CommandLine(tmp_path / "sample.book", capsys)


def test_a_month_of_the_sample(sample: CommandLine, tmp_path: Path) -> None:
    page = tmp_path / "month.html"
    words = sample.done("month").out
    assert "What crops gave" in words
    assert "What they cost" in words
    sample.done("month", "--html", str(page))
    text = page.read_text()
    body = text[text.index("<body>") : text.index("</html>")].replace(" style=text-align:right", "")
    tree = ET.fromstring(body)  # noqa: S314 - we made it
    assert len(tree.findall("table")) == 2
    assert tree.findall("{http://www.w3.org/2000/svg}svg")
    assert "http" not in text.replace("http://www.w3.org/2000/svg", "")
    rows = list(csv.DictReader(sample.done("month", "--csv").out.splitlines()))
    assert {"radish"} <= {row["crop"] for row in rows}
    assert int(rows[0]["trays_sown"]) > 0


def test_what_is_no_month(sample: CommandLine) -> None:
    assert "isn't a month" in sample("month", "soon").refusal
    assert "isn't a month" in sample("month", "2026-13").refusal
    assert "still to come" in sample("month", "2099-01").refusal
    assert "No tray left the rack" in sample.done("month", "1999-01").out
