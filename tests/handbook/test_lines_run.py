"""Every line of shell in the handbook and the README runs on the sample, chapter by chapter, as it stands."""

from __future__ import annotations

import os
import re
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from logbook.handbook import WRITTEN, chapter_text
from tests.conftest import CommandLine, SampleMaker
from tests.handbook.test_chapters import README, calls_in, code_of

NOW, ZONE = "2026-04-14T07:45", "Europe/Lisbon"
ELSEWHERE = {
    "--book postgresql://grower@server/room begin --zone Europe/Lisbon": "needs a server",
    "move-book ~/.local/share/growroom-logbook/room.book postgresql://grower@server/room": "needs a server",
    "demo": "opens the screens",
    "demo --keep ~/sample.book": "opens the screens",
    "--book ~/sample.book round": "opens what the line before it keeps",
    "serve": "serves until it is stopped",
    "me AB": "remembers a terminal, and here is none",
    "recall RA 48/2 --practice --note all three reached by phone": "is timed until Enter at the terminal",
    "restore room-2026-04-14.book.xz": "asks at the terminal; the lines around it don't",
}
"""Lines that can't run here, and why."""
INTO_FILE = re.compile(r" > (\S+)$")
READ = {
    "feed": '{"celsius": 21.4, "humidity": 63, "place": "Rack 1"}\n',
    "trial.csv": "arm,grams,block\n36g,281,1\n42g,297,1\n36g,276,2\n42g,305,2\n",
    "weights.csv": "batch,grams\n1,281\n1,276\n2,297\n2,305\n",
}
"""What a line reads that the reader of the handbook has."""


@pytest.mark.parametrize("chapter", [*WRITTEN, "README"])
def test_every_line_runs_on_the_sample(
    chapter: str, sample_book: SampleMaker, tmp_path: Path,
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    # given the sample as the book, a stick, and the files that lines read
    text = README.read_text(encoding="utf-8") if chapter == "README" else chapter_text(chapter)
    home = Path(os.environ["HOME"])
    (home / "usb").mkdir(parents=True)
    book = home / "room.book"
    monkeypatch.setenv("LOGBOOK_BOOK", str(book))
    sample_book(book, datetime.fromisoformat(NOW).replace(tzinfo=ZoneInfo(ZONE)), ZONE)
    monkeypatch.chdir(tmp_path)
    for name, table in READ.items():
        Path(name).write_text(table)
    cli = CommandLine(book, capsys)
    refused = []
    # when its lines are typed one after another
    for line in code_of(text, "sh"):
        for call in calls_in(line):
            words = " ".join(call)
            if not call or words in ELSEWHERE:
                continue
            if call[0] == "begin":  # from here on it speaks of the book that is begun
                cli.book = tmp_path / "begun" / "room.book"
            with Path("feed").open(encoding="utf-8") as fed:
                monkeypatch.setattr("sys.stdin", fed)
                ran = cli(*(each.replace("~", str(home)) for each in call))
            if into := INTO_FILE.search(line):
                path = Path(into[1].replace("~", str(home)))
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(ran.out)
            if ran.code:
                refused.append(f"{words}: {ran.err}")
    # then none is refused
    assert not refused, "\n".join(refused)
