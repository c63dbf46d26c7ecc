"""The lowest declared versions, installed and started: run this whenever one of them is changed.

    python -m tests.bench.lowest [python3.11]

It installs the program with its extras into a new venv, every library that pyproject.toml gives a
lowest version at that one, and uses it: plain commands, an act, the app in a terminal, the
statistics, the page for browsers. Takes about two minutes and needs a package index, so it isn't
part of the tests; they hold `TRIED` to what is declared.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

from tests.bench.processes import ROOT
from tests.bench.terminal import Terminal

TRIED = {
    "alembic": "1.13", "click": "8.1.7", "icalendar": "6.1", "pendulum": "3.0", "plotext": "6.0", "segno": "1.6", "sqlmodel": "0.0.45",
    "textual": "8.2.5", "tomli-w": "1.0", "scipy": "1.11.1", "psycopg": "3.2",
    "textual-serve": "1.1.3",
}  # fmt: skip
"""What started when this was last run (Python 3.11). textual 8.2.4 and 8.0.0 end with a TypeError."""
EXTRAS = ("stats", "postgres", "browser")
SOWN, LATER = "2026-04-14T08:30", "2026-04-17T09:00"
_FLOOR = re.compile(r"([A-Za-z0-9_-]+)(?:\[\w+\])?>=([0-9.]+)")


def floors() -> dict[str, str]:
    """The lowest versions that pyproject.toml declares, without those for developing."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = [*project["dependencies"]]
    for extra in EXTRAS:
        lines += project["optional-dependencies"][extra]
    return {found[1]: found[2] for line in lines if (found := _FLOOR.match(line))}


def _install(folder: Path, interpreter: str) -> Path:
    """A venv with the program and the lowest versions; its Python."""
    subprocess.run([interpreter, "-m", "venv", folder / "venv"], check=True)
    python = folder / "venv" / "bin" / "python"
    pins = folder / "lowest.txt"
    pins.write_text("".join(f"{name}=={version}\n" for name, version in floors().items()))
    quiet = ("-q", "--disable-pip-version-check")
    wanted = f"{ROOT}[{','.join(EXTRAS)}]"
    subprocess.run([python, "-m", "pip", "install", *quiet, "-c", pins, wanted], check=True)
    return python


def _use(python: Path, folder: Path) -> None:
    book = folder / "room.book"

    def logbook(*words: str, now: str = SOWN) -> str:
        given = ["--book", str(book), "--now", now, "--by", "ab", *words]
        return subprocess.check_output([python, "-m", "logbook", *given], cwd=folder, text=True)

    assert "Rack 1" in logbook("demo"), "the demo prints no round"
    logbook("begin", "--zone", "Europe/London")
    logbook("sow", "radish", "--trays", "4")
    assert "101–104" in logbook("tray", "101") + logbook("page")
    logbook("check")
    assert logbook("reckon", "--help")
    assert "written to" in logbook("tape", "101", "--html", str(folder / "tape.html"))
    code = (
        "import psycopg, logbook.serving.server\n"
        "from logbook.growing.trials.distributions import f_tail\n"
        "assert 0.049 < f_tail(5.3177, 1, 8) < 0.051\n"
    )
    subprocess.run([python, "-c", code], cwd=folder, check=True)
    with Terminal(
        [str(python), "-m", "logbook", "--book", str(book), "--now", LATER, "--by", "ab"],
        cwd=folder, XDG_STATE_HOME=str(folder), XDG_CONFIG_HOME=str(folder),
    ) as terminal:  # fmt: skip
        terminal.wait_for(lambda each: "weight off" in each.text, 60)
        terminal.key("j")
        terminal.key("even stand\r")
        terminal.wait_for(lambda each: "jot" in each.text)
        for key in ("\x1bOR", "\x1bOS", "\x1b[15~", "\x1b[18~", "\x1b[19~", "v", "y", "h"):
            terminal.key(key)
    assert "even stand" in logbook("page", now=LATER)


def main() -> None:
    interpreter = sys.argv[1] if len(sys.argv) > 1 else sys.executable
    with tempfile.TemporaryDirectory() as folder:
        python = _install(Path(folder), interpreter)
        _use(python, Path(folder))
    print(f"TRIED = {floors()}")


if __name__ == "__main__":
    main()
