"""A bundle of files: a folder or a zip file; written whole and closed to others, and read."""

import os
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager
from functools import partial
from pathlib import Path
from typing import IO

from logbook.paths import private_folder, sync
from logbook.store.file.faults import CannotWrite
from logbook.store.file.leftovers import remove_quietly, unfinished_of
from logbook.text import Refused

_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The time of every file in a zip: the earliest that the format knows, so that none is told."""
Bundle = Callable[[str], AbstractContextManager[IO[bytes]]]
"""Opens a file by its name, to write it or to read it."""


@contextmanager
def _written(folder: Path, name: str) -> Iterator[IO[bytes]]:
    handle = os.open(folder / name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
    with os.fdopen(handle, "wb") as file:
        yield file
        file.flush()
        os.fsync(file.fileno())


@contextmanager
def _zipped(archive: zipfile.ZipFile, name: str) -> Iterator[IO[bytes]]:
    info = zipfile.ZipInfo(name, _EARLIEST)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.create_system = 3
    info.external_attr = 0o600 << 16
    with archive.open(info, "w", force_zip64=True) as file:
        yield file


@contextmanager
def new_bundle(target: Path) -> Iterator[Bundle]:
    """Write a folder, or a file that ends in .zip, under another name; name it when all is well."""
    unfinished = unfinished_of(target)
    zipped = target.suffix.casefold() == ".zip"
    try:
        if target.exists() and (zipped or not target.is_dir() or any(target.iterdir())):
            raise Refused(f"There is already something at {target}; it was not touched.")
        private_folder(target.parent)
        remove_quietly(unfinished)
        if zipped:
            handle = os.open(unfinished, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
            with os.fdopen(handle, "wb") as file, zipfile.ZipFile(file, "w") as archive:
                yield partial(_zipped, archive)
            sync(unfinished)
            _name(unfinished, target)
        else:
            unfinished.mkdir(mode=0o700)
            yield partial(_written, unfinished)
            sync(unfinished)
            unfinished.rename(target)
        sync(target.parent)
    except OSError as fault:
        raise CannotWrite(f"{target} cannot be written: {fault.strerror}.") from fault
    finally:
        remove_quietly(unfinished)


def _name(unfinished: Path, target: Path) -> None:
    """Name a file, never over another; a disk without links takes a plain renaming."""
    try:
        os.link(unfinished, target)
    except FileExistsError as fault:
        raise Refused(f"There is already something at {target}; it was not touched.") from fault
    except OSError:
        unfinished.rename(target)


@contextmanager
def _read(source: Path, archive: zipfile.ZipFile | None, name: str) -> Iterator[IO[bytes]]:
    with _reading(source), archive.open(name) if archive else (source / name).open("rb") as file:
        yield file


@contextmanager
def _reading(source: Path) -> Iterator[None]:
    try:
        yield
    except FileNotFoundError as fault:
        raise Refused(f"There is no {fault.filename or source}.") from fault
    except (KeyError, EOFError, zipfile.BadZipFile, NotImplementedError, zlib.error) as fault:
        raise Refused(f"{source} is not an export, or not a whole one.") from fault
    except RuntimeError as fault:
        raise Refused(f"{source} asks for a password; give it without one.") from fault
    except OSError as fault:
        raise Refused(f"{source} cannot be read: {fault.strerror}.") from fault


@contextmanager
def old_bundle(source: Path) -> Iterator[Bundle]:
    """Read a folder or a zip file; raise Refused when it cannot be."""
    with ExitStack() as stack:
        with _reading(source):
            archive = None if source.is_dir() else stack.enter_context(zipfile.ZipFile(source))
        yield partial(_read, source, archive)
