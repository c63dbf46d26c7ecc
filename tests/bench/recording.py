"""What a process does to the files of a folder, as the kernel sees it: recorded with strace."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.bench.processes import ROOT

CALLS = (
    "openat,write,pwrite64,ftruncate,fsync,fdatasync,unlink,unlinkat,rename,renameat,renameat2,"
    "link,linkat,mkdir,lseek"
)


@dataclass(frozen=True, slots=True)
class Write:
    """Bytes written to a file."""

    path: str
    offset: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Truncate:
    """A file cut or stretched to a size."""

    path: str
    size: int


@dataclass(frozen=True, slots=True)
class Sync:
    """A file or a folder synced."""

    path: str


@dataclass(frozen=True, slots=True)
class Make:
    """A new, empty file or folder under a name."""

    path: str
    folder: bool = False


@dataclass(frozen=True, slots=True)
class Unlink:
    """A name taken away."""

    path: str


@dataclass(frozen=True, slots=True)
class Rename:
    """A name changed; what had the new one loses it."""

    path: str
    new: str


@dataclass(frozen=True, slots=True)
class Link:
    """A second name given."""

    path: str
    new: str


@dataclass(frozen=True, slots=True)
class Said:
    """A line printed on standard output."""

    text: str


Op = Write | Truncate | Sync | Make | Unlink | Rename | Link | Said

_LINE = re.compile(r"^\d+ +(\w+)\((.*)\)\s+= (-?\d+)")
_BEGUN = re.compile(r"^(\d+) +(.*) <unfinished \.\.\.>$")
_ENDED = re.compile(r"^(\d+) +<\.\.\. \w+ resumed>(.*)$")
_FD = re.compile(r"^(\d+)<([^>]*)>")
_QUOTED = re.compile(r'"([^"]*)"')


def can_record() -> str:
    """Say why nothing can be recorded here; "" when it can."""
    if shutil.which("strace") is None:
        return "strace is not installed"
    tried = subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True, check=False)
    return "" if tried.returncode == 0 else "strace may not trace here"


def record(arguments: list[str], folder: Path, log: Path) -> list[Op]:
    """Run `python -m ARGUMENTS` to its end and give what it did to files in the folder, in order."""
    subprocess.run(
        ["strace", "-f", "-o", str(log), "-y", "-xx", "-s", "1000000", "-e", f"trace={CALLS}",
         sys.executable, "-m", *arguments],
        cwd=ROOT, stdin=subprocess.DEVNULL, check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    with log.open() as lines:
        return list(_ops(_whole(lines), str(folder)))


def _whole(lines: Iterable[str]) -> Iterator[str]:
    """Lines of several threads, those put together that another thread came between."""
    begun: dict[str, str] = {}
    for line in lines:
        if match := _BEGUN.match(line):
            begun[match[1]] = f"{match[1]} {match[2]}"
        elif match := _ENDED.match(line):
            yield begun.pop(match[1], "") + match[2]
        else:
            yield line


def _text(escaped: str) -> bytes:
    return bytes.fromhex(escaped.replace("\\x", ""))


def _path(escaped: str) -> str:
    return _text(escaped).decode().removesuffix(" (deleted)")


def _ops(lines: Iterable[str], folder: str) -> Iterator[Op]:
    made: set[str] = set()
    places: dict[str, int] = {}
    said = ""
    for line in lines:
        match = _LINE.match(line)
        if match is None or int(match[3]) < 0:
            continue
        call, words = match[1], match[2]
        handle = _FD.match(words)
        quoted = _QUOTED.findall(words)
        if call == "write" and handle is not None and handle[1] == "1":
            said += _text(quoted[0]).decode()
            *whole, said = said.split("\n")
            yield from (Said(each) for each in whole)
            continue
        if handle is not None:
            path = _path(handle[2])
            if not path.startswith(folder):
                continue
            numbers = words.rpartition('"')[2].split(", ")
            if call == "pwrite64":
                yield Write(path, int(numbers[-1]), _text(quoted[0]))
            elif call == "ftruncate":
                yield Truncate(path, int(words.rpartition(", ")[2]))
            elif call in ("fsync", "fdatasync"):
                yield Sync(path)
            elif call == "lseek":
                places[path] = int(match[3])
            elif call == "write":
                data = _text(quoted[0])
                yield Write(path, places.get(path, 0), data)
                places[path] = places.get(path, 0) + len(data)
            continue
        names = [_path(each) for each in quoted]
        if not names or not names[-1].startswith(folder):
            continue
        if call == "mkdir":
            yield Make(names[0], folder=True)
        elif call == "openat" and "O_CREAT" in words:
            places[names[0]] = 0
            if names[0] not in made:
                made.add(names[0])
                yield Make(names[0])
        elif call.startswith("unlink"):
            made.discard(names[0])
            yield Unlink(names[0])
        elif call.startswith("rename"):
            made.discard(names[0])
            made.add(names[1])
            yield Rename(names[0], names[1])
        elif call.startswith("link"):
            made.add(names[1])
            yield Link(names[0], names[1])
