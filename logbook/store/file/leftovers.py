"""What a killed program leaves on the disk: files and folders that are named after its process."""

import os
import re
import shutil
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

_NAMED = re.compile(r".+\.(\d+)\.unfinished(?:-journal)?|logbook-demo-(\d+)-\w+")


def unfinished_of(target: Path) -> Path:
    """The name beside `target` under which this process makes it."""
    return target.with_name(f"{target.name}.{os.getpid()}.unfinished")


def demo_folder() -> Path:
    """Make a folder for this process's sample book."""
    return Path(tempfile.mkdtemp(prefix=f"logbook-demo-{os.getpid()}-"))


def leftovers(folders: Iterable[Path]) -> list[Path]:
    """What lies in folders of this person's programs that have ended."""
    found = []
    for folder in dict.fromkeys(folders):
        with suppress(OSError):
            found += [path for path in folder.iterdir() if _is_left(path)]
    return sorted(found)


def _is_left(path: Path) -> bool:
    named = _NAMED.fullmatch(path.name)
    if named is None or _runs(int(named[1] or named[2])):
        return False
    return path.lstat().st_uid == os.geteuid()


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (PermissionError, OverflowError):
        return True
    return process != os.getpid()


def remove_quietly(path: Path) -> None:
    """Remove a file or a folder with all in it, if it is there and its disk still is."""
    with suppress(OSError):
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)
