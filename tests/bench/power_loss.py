"""Pull the plug, on paper: what would be on the disk, and is it a whole book?

    python -m tests.bench.power_loss [--acts 12] [--images 12] [--seed 1]

The program runs under strace, which records every write, sync and change of a name in the book's
folder, and every acknowledgement. After each of these steps the plug is pulled: from what was
synced till then, and from what was not, images of the disk are made and each is opened, checked
and searched for every act that was acknowledged by then.

It covers, in each image, by chance and independently for each file:
  - unsynced writes dropped, done, or torn: any of a write's 512-byte sectors there or not, in any
    order, holes reading as zeros, and (in the journal and the book) sectors of noise;
  - unsynced cuts of a file's length done or not;
  - unsynced names (made, taken away, changed, linked): none, all, or the first few of them;
  - acts of the daily work, the copying of a book, and going back to a copy, the making of a book,
    import, export and the bringing up to date of an older book; what other threads do, too;
  - folders made meanwhile, which are lost with all in them unless their own names are synced.
It does not cover: a disk that says "synced" and has not (cards that lie), synced bytes that rot,
noise outside the sectors that were being written, file systems that lose a file's old content
when it is renamed over, memory-mapped writes (there are none), and several writers at once.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import random
import shutil
import sqlite3
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from logbook.actions.book import open_book
from logbook.exchange.exporting import export_book
from logbook.exchange.manifest import NAME, read_manifest
from logbook.store.file.book_file import BookFile
from logbook.store.file.health import integrity_faults
from logbook.store.file.packing import unpack
from logbook.store.revision import HEAD
from tests.bench.processes import ROOT, new_book
from tests.bench.recording import (
    Link,
    Make,
    Op,
    Rename,
    Said,
    Sync,
    Truncate,
    Unlink,
    Write,
    can_record,
    record,
)
from tests.bench.whole import Ack, assert_whole

SECTOR = 512
ASSETS = ROOT / "tests" / "assets"


@dataclass
class _File:
    synced: bytearray
    folder: bool = False
    waiting: list[Write | Truncate] = field(default_factory=list)

    def sync(self) -> None:
        for op in self.waiting:
            _apply(self.synced, op)
        self.waiting = []

    def image(self, chance: random.Random, how: str) -> bytes:
        """Give what may be on the disk: how is dropped, done or torn."""
        data = bytearray(self.synced)
        for op in self.waiting if how != "dropped" else ():
            if how == "done" or (isinstance(op, Truncate) and chance.random() < 0.5):
                _apply(data, op)
            elif isinstance(op, Write):
                _tear(data, op, chance)
        return bytes(data)


def _apply(data: bytearray, op: Write | Truncate) -> None:
    if isinstance(op, Truncate):
        del data[op.size :]
        data.extend(bytes(op.size - len(data)))
        return
    if len(data) < op.offset:
        data.extend(bytes(op.offset - len(data)))
    data[op.offset : op.offset + len(op.data)] = op.data


def _tear(data: bytearray, op: Write, chance: random.Random) -> None:
    kind = chance.choice(["dropped", "done", "sectors", "noise"])
    if kind == "dropped":
        return
    if kind == "done":
        _apply(data, op)
        return
    start, end = op.offset, op.offset + len(op.data)
    at = start
    while at < end:
        upto = min(end, (at // SECTOR + 1) * SECTOR)
        piece = op.data[at - start : upto - start]
        luck = chance.random()
        if luck < 0.5:
            _apply(data, Write(op.path, at, piece))
        elif kind == "noise" and luck < 0.7:
            _apply(data, Write(op.path, at, chance.randbytes(len(piece))))
        at = upto


@dataclass
class Disk:
    """A folder on a disk: what is synced, what waits."""

    folder: str
    names: dict[str, _File] = field(default_factory=dict)
    synced: dict[str, _File] = field(default_factory=dict)
    renamings: list[Make | Unlink | Rename | Link] = field(default_factory=list)
    made: dict[int, _File] = field(default_factory=dict)
    folders: set[str] = field(default_factory=set)
    """Those that were made meanwhile: what is in one is lost with its name."""

    def do(self, op: Op) -> None:
        """Take one recorded step."""
        match op:
            case Write(path) | Truncate(path):
                file = self.names.get(path)
                if file is not None:
                    file.waiting.append(op)
            case Sync(path) if path in self.names and not self.names[path].folder:
                self.names[path].sync()
            case Sync(path):
                self._sync_names(path)
            case Make(path) if path in self.names:
                pass
            case Make() | Unlink() | Rename() | Link():
                self.renamings.append(op)
                self._rename(self.names, op)
            case _:
                pass

    def _sync_names(self, folder: str) -> None:
        def inside(name: str) -> bool:
            return str(Path(name).parent) == folder

        others = {name: file for name, file in self.synced.items() if not inside(name)}
        for op in self.renamings:
            if isinstance(op, Rename) and inside(op.path):
                _move_below(others, op)
        self.synced = others | {name: file for name, file in self.names.items() if inside(name)}
        self.renamings = [op for op in self.renamings if not inside(op.path)]

    def _rename(self, names: dict[str, _File], op: Make | Unlink | Rename | Link) -> None:
        match op:
            case Make(path, folder):
                names[path] = self.made.setdefault(id(op), _File(bytearray(), folder))
                if folder:
                    self.folders.add(path)
            case Unlink(path):
                names.pop(path, None)
            case Rename(path, new):
                if path in names:
                    names[new] = names.pop(path)
                if path in self.folders:
                    self.folders.add(new)
                    _move_below(names, op)
            case Link(path, new):
                if path in names:
                    names[new] = names[path]

    def image(self, target: Path, chance: random.Random, how: str) -> None:
        """Write what may be on the disk after a power cut into an empty folder."""
        names = dict(self.synced)
        few = {"dropped": 0, "done": len(self.renamings)}
        upto = few.get(how, chance.randint(0, len(self.renamings)))
        for op in self.renamings[:upto]:
            self._rename(names, op)
        contents: dict[int, bytes] = {}
        for name, file in names.items():
            above = {str(each) for each in Path(name).parents}
            if file.folder or any(each not in names for each in above & self.folders):
                continue
            data = contents.setdefault(id(file), file.image(chance, how))
            path = target / Path(name).relative_to(self.folder)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)


def _move_below(names: dict[str, _File], op: Rename) -> None:
    for name in [each for each in names if each.startswith(f"{op.path}/")]:
        names[op.new + name.removeprefix(op.path)] = names.pop(name)


def disk_of(folder: Path) -> Disk:
    """Take a folder as it stands for a disk with everything synced."""
    files = {
        str(path): _File(bytearray(path.read_bytes()))
        for path in folder.rglob("*")
        if path.is_file()
    }
    return Disk(str(folder), dict(files), dict(files))


Verify = Callable[[Path, list[str]], None]


def pull_plug(
    disk: Disk,
    ops: list[Op],
    verify: Verify,
    *,
    scratch: Path,
    images: int,
    chance: random.Random,
    share: float = 1.0,
) -> int:
    """Replay the steps; after each, make images and verify them. Give how many were made.

    Of the writes only a `share` is looked at, chosen by chance; of all other steps each.
    """
    said: list[str] = []
    made = 0
    for op in ops:
        disk.do(op)
        if isinstance(op, Said):
            said.append(op.text)
        if isinstance(op, Write) and chance.random() >= share:
            continue
        for how in ["dropped", "done", *["torn"] * images][: images + 2 if images else 1]:
            target = scratch / "image"
            shutil.rmtree(target, ignore_errors=True)
            target.mkdir()
            disk.image(target, chance, how)
            made += 1
            try:
                verify(target, said)
            except Exception as fault:
                words = f"after {op!r:.200} ({how}): {fault}"
                raise AssertionError(words) from fault
    return made


def acks_of(said: list[str]) -> list[Ack]:
    """Give the acknowledgements among lines that a writer printed."""
    lines = [json.loads(line) for line in said]
    return [line for line in lines if line["said"] == "ack"]


def daily_work(folder: Path, acts: int, seed: int) -> tuple[Disk, list[Op], Verify]:
    """Record acts of daily work on a new book."""
    home = folder / "work"
    book = new_book(home / "room.book")
    disk = disk_of(home)
    arguments = ["tests.bench.writer", str(book), "w", "--acts", str(acts), "--seed", str(seed)]
    ops = record(arguments, home, folder / "work.strace")

    def verify(image: Path, said: list[str]) -> None:
        assert_whole(image / "room.book", acks_of(said), summaries=False)

    return disk, ops, verify


def copying(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record the making of a copy: whatever has a copy's name is whole."""
    home = folder / "copying"
    book = new_book(home / "room.book")
    disk = disk_of(home)
    ops = record(
        ["logbook", "--book", str(book), "copy", str(home / "a.book.xz")], home, folder / "c.strace"
    )

    def verify(image: Path, said: list[str]) -> None:
        assert_whole(image / "room.book", [])
        if said or (image / "a.book.xz").exists():
            unpack(image / "a.book.xz", image / "a.book")
            assert_whole(image / "a.book", [])

    return disk, ops, verify


def going_back(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record going back to a copy: at any moment the book is whole, and nothing is lost of it."""
    from logbook.actions.care.keeping import copy_book
    from logbook.actions.trays.noticing import jot

    home = folder / "back"
    book = open_book(new_book(home / "room.book"))
    copy_book(book, home / "a.book.xz")
    jot(book, (), "written after the copy")
    disk = disk_of(home)
    ops = record(
        ["logbook", "--book", str(book.file.path), "restore", "--yes", str(home / "a.book.xz")],
        home, folder / "b.strace",
    )  # fmt: skip

    def verify(image: Path, said: list[str]) -> None:
        del said
        found = set()
        for path in [image / "room.book", *image.glob("room.book.aside-*Z")]:
            assert_whole(path, [])
            with open_book(path).reading() as reading:
                found |= {row[0] for row in reading.rows("SELECT note FROM entry")}
        assert "written after the copy" in found

    return disk, ops, verify


def beginning(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record the making of a book in a new folder: there is none, or a whole one."""
    home = folder / "begin"
    home.mkdir()
    return _made_whole(home, folder / "n.strace", "begin")


def taking_in(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record an import into a new folder."""
    home = folder / "import"
    export_book(open_book(new_book(home / "old.book")), home / "files")
    return _made_whole(home, folder / "i.strace", "import", str(home / "files"))


def _made_whole(home: Path, log: Path, *words: str) -> tuple[Disk, list[Op], Verify]:
    disk = disk_of(home)
    ops = record(["logbook", "--book", str(home / "new" / "room.book"), *words], home, log)

    def verify(image: Path, said: list[str]) -> None:
        path = image / "new" / "room.book"
        if said or path.exists():
            assert_whole(path, [])

    return disk, ops, verify


def taking_out(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record an export into a new folder: what has its name is whole, to the last file."""
    home = folder / "export"
    book, target = new_book(home / "room.book"), Path("new") / "files"
    disk = disk_of(home)
    ops = record(
        ["logbook", "--book", str(book), "export", str(home / target)], home, folder / "e.strace"
    )

    def verify(image: Path, said: list[str]) -> None:
        if said or (image / target).exists():
            manifest = read_manifest((image / target / NAME).read_bytes())
            for note in manifest.files:
                data = (image / target / note.file).read_bytes()
                assert hashlib.sha256(data).hexdigest() == note.sha256, note.file

    return disk, ops, verify


def bringing_up_to_date(folder: Path) -> tuple[Disk, list[Op], Verify]:
    """Record the first reading of an older book: it is whole, as it was or as it is to be."""
    home = folder / "update"
    home.mkdir()
    old, path = sorted(ASSETS.glob("book-*.sql"))[-2], home / "room.book"
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(old.read_text(encoding="utf-8"))
    disk = disk_of(home)
    ops = record(["logbook", "--book", str(path), "round"], home, folder / "u.strace")

    def verify(image: Path, said: list[str]) -> None:
        whole = [image / "room.book", *image.glob("room.book.before-????")]
        for each in whole:
            assert integrity_faults(each) == []
            assert BookFile(each).check_kind() in (old.stem[-4:], HEAD)
        if said:
            assert len(whole) == 2
            assert BookFile(whole[0]).check_kind() == HEAD

    return disk, ops, verify


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--acts", type=int, default=12)
    parser.add_argument("--images", type=int, default=12)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    why = can_record()
    if why:
        raise SystemExit(f"Nothing can be recorded: {why}.")
    chance = random.Random(given.seed)
    with tempfile.TemporaryDirectory(prefix="plug-") as name:
        folder = Path(name)
        for what, (disk, ops, verify) in {
            "daily work": daily_work(folder, given.acts, given.seed),
            "copying": copying(folder),
            "going back": going_back(folder),
            "beginning": beginning(folder),
            "taking in": taking_in(folder),
            "taking out": taking_out(folder),
            "bringing up to date": bringing_up_to_date(folder),
        }.items():
            began = time.monotonic()
            made = pull_plug(disk, ops, verify, scratch=folder, images=given.images, chance=chance)
            acks = sum(isinstance(op, Said) for op in ops)
            print(
                f"{what}: {len(ops)} steps ({acks} lines said), {made:,} images of the disk, each "
                f"whole with all that was acknowledged, {time.monotonic() - began:.0f} s"
            )


if __name__ == "__main__":
    main()
