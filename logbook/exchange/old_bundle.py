"""Reading a bundle of files that was written before: a folder, or a zip file."""

import zipfile
import zlib
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import partial
from pathlib import Path
from typing import IO

from logbook.exchange.bundle import Bundle
from logbook.text import Refused


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
