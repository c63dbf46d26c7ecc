"""Names of files that people type."""

import errno
import os
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from logbook.text import Refused

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem


def named_file(text: str | Path) -> Path:
    """A path with ~ put in; raise Refused where the machine can have no file of that name."""
    try:
        path = Path(text).expanduser()
        os.lstat(path)
    except (ValueError, RuntimeError) as fault:
        raise Refused(f'"{str(text)[:60]}" is not a file name.') from fault
    except OSError as fault:
        if fault.errno == errno.ENAMETOOLONG:
            raise Refused(f'"{str(text)[:60]}…" is too long for the name of a file.') from fault
    return path


def named_book(text: str | Path) -> Path:
    """As named_file(), but also refused where SQLite can open no file of that name."""
    path = named_file(text)
    try:
        str(path).encode()
    except UnicodeEncodeError as fault:
        raise Refused(
            f'"{str(text)[:60]}" cannot be the name of a book: it is not in UTF-8.'
        ) from fault
    return path


def refuse_broken(arguments: Iterable[str]) -> None:
    """Raise Refused for an argument that isn't UTF-8, unless it is or could be a file's name."""
    for text in arguments:
        if not any("\ud800" <= sign <= "\udfff" for sign in text):
            continue
        folder = os.path.dirname(text)  # noqa: PTH120 - a Path of "" is "."
        if not os.path.lexists(text) and not (folder and os.path.lexists(folder)):
            shown = text.encode(errors="replace").decode(errors="replace")
            raise Refused(
                f'"{shown[:40]}" isn\'t UTF-8 text; set the terminal to UTF-8 and type it again.'
            )


class FileName(click.ParamType):  # type: ignore[type-arg]
    """The name of a file, read by one of those above; the shell completes it."""

    name = "path"

    def __init__(self, read: Callable[[str], Any] = named_file) -> None:
        self.read = read

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Read what was typed."""
        return self.read(value)

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list["CompletionItem"]:
        """Leave it to the shell, which knows the files."""
        from click.shell_completion import CompletionItem

        return [CompletionItem(incomplete, type="file")]
