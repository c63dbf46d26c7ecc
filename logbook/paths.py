"""Where files live: the XDG folders, or what the environment says."""

import errno
import os
from pathlib import Path

BOOK_VARIABLE = "LOGBOOK_BOOK"


def _xdg(variable: str, fallback: str) -> Path:
    given = os.environ.get(variable, "")
    base = Path(given) if given.startswith("/") else Path.home() / fallback
    return base / "growroom-logbook"


def settings_folder() -> Path:
    """The folder of the settings file ($XDG_CONFIG_HOME)."""
    return _xdg("XDG_CONFIG_HOME", ".config")


def state_folder() -> Path:
    """The folder of drafts and log files ($XDG_STATE_HOME)."""
    return _xdg("XDG_STATE_HOME", ".local/state")


def sync(path: Path) -> None:
    """Sync a file's content to the disk, or a folder's names, so that they outlive a power cut."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as fault:
        if fault.errno not in (errno.EINVAL, errno.ENOTSUP):  # a file system that has no sync
            raise
    finally:
        os.close(handle)


def private_folder(path: Path) -> Path:
    """Make a folder, and the missing ones above it, that only its owner may enter; give it back.

    Each is named durably: what lies in it outlives a power cut.
    """
    for folder in (*reversed(path.parents), path):
        if not folder.is_dir():
            folder.mkdir(mode=0o700, exist_ok=True)
            sync(folder.parent)
    return path


def write_private(path: Path, text: str) -> None:
    """Write a small file that only its owner may read: whole, or as it was before."""
    private_folder(path.parent)
    unfinished = path.with_name(f"{path.name}.{os.getpid()}.unfinished")
    try:
        handle = os.open(unfinished, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        unfinished.replace(path)
    finally:
        unfinished.unlink(missing_ok=True)


def book_path(given: str | None = None) -> Path:
    """The book's file: what was given, else LOGBOOK_BOOK, else the data folder's."""
    named = given or os.environ.get(BOOK_VARIABLE, "")
    return Path(named) if named else _xdg("XDG_DATA_HOME", ".local/share") / "room.book"
