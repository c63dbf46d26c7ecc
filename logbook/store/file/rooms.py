"""Room on the disk, and whether the disk is one that a book may lie on."""

import os
from pathlib import Path

from logbook.store.file.faults import CannotWrite

RESERVE_BYTES = 16 * 2**20
"""What must stay free beside a copy, so that the book itself can go on."""

NETWORK = {
    "9p", "afs", "ceph", "cifs", "coda", "davfs", "fuse.ceph", "fuse.davfs", "fuse.glusterfs",
    "fuse.rclone", "fuse.sshfs", "gfs2", "glusterfs", "ncpfs", "nfs", "nfs4", "ocfs2", "smb3",
    "smbfs", "vboxsf",
}  # fmt: skip
"""Types of file system, as /proc/mounts names them, whose locks reach over a network or a host."""

FLEETING = {"overlay": "on an overlay", "ramfs": "in memory", "tmpfs": "in memory"}
"""Types of file system that may forget at the next start all that was written, and what they are."""

EMPTIED = (Path("/tmp"), Path("/var/tmp"))  # noqa: S108 - nothing is written there
"""Folders that a system empties by itself."""


def nearest_folder(path: Path) -> Path:
    """The path itself or the nearest folder above it that is there."""
    path = path.absolute()
    return next(each for each in (path, *path.parents) if each.is_dir())


def free_bytes(folder: Path) -> int:
    """How many bytes a person may still write on the disk of a folder (it may not be yet)."""
    disk = os.statvfs(nearest_folder(folder))
    return disk.f_bavail * disk.f_frsize


def disk_bytes(folder: Path) -> int:
    """How large the disk of a folder is (it may not be yet)."""
    disk = os.statvfs(nearest_folder(folder))
    return disk.f_blocks * disk.f_frsize


def megabytes(size: int) -> str:
    """Write a size: "35 kB", "0.4 MB", "310 MB", "74 GB"."""
    mega = size / 1e6
    if mega < 0.1:
        return f"{size / 1000:.0f} kB"
    if mega >= 10_000:
        return f"{mega / 1000:,.0f} GB"
    return f"{mega:.1f} MB" if mega < 10 else f"{mega:,.0f} MB"


def bytes_in(folder: Path) -> int:
    """How many bytes the files below a folder have; what cannot be looked at is left out."""
    return sum(
        (Path(at) / name).lstat().st_size for at, _, names in os.walk(folder) for name in names
        if (Path(at) / name).exists()
    )  # fmt: skip


def need_room(folder: Path, size: int) -> None:
    """Raise CannotWrite unless a folder's disk has room for `size` bytes and the reserve."""
    free = free_bytes(folder)
    if free < size + RESERVE_BYTES:
        raise CannotWrite(
            f"There is no room in {folder}: {megabytes(size + RESERVE_BYTES)} are needed and "
            f"{megabytes(free)} are free. Nothing was written; make room, or name another disk."
        )


def file_system_of(path: Path, mounts: Path = Path("/proc/mounts")) -> str:
    """The type of the file system that a path lies on, as the kernel names it; "" unknown."""
    try:
        lines = mounts.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ""
    real = path.resolve()
    found, deepest = "", -1
    for line in lines:
        parts = line.split(" ")
        if len(parts) < 3:
            continue
        point = Path(_unescaped(parts[1]))
        depth = len(point.parts)
        if real.is_relative_to(point) and depth >= deepest:
            found, deepest = parts[2], depth
    return found


def _unescaped(text: str) -> str:
    for code, mark in (("\\040", " "), ("\\011", "\t"), ("\\012", "\n"), ("\\134", "\\")):
        text = text.replace(code, mark)
    return text


def is_read_only(folder: Path) -> bool:
    """Say whether the disk of a folder is mounted so that nobody can write."""
    return bool(os.statvfs(folder).f_flag & os.ST_RDONLY)


def why_fleeting(path: Path, kind: str) -> str:
    """Where a file lies that may be gone one day by itself; "" where it stays."""
    emptied = next((each for each in EMPTIED if path.resolve().is_relative_to(each)), None)
    return f"in {emptied}" if emptied else FLEETING.get(kind, "")


def is_network(kind: str) -> bool:
    """Say whether a type of file system is one that SQLite's locks cannot be trusted on."""
    return kind in NETWORK
