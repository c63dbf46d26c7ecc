"""The commands that look after the book: copy, restore, check."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import UTC
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from logbook.cli.arguments import json_option
from logbook.cli.files import named_book
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import print_json, say
from logbook.text import Refused, clean
from logbook.ways import in_shell

if TYPE_CHECKING:
    from datetime import datetime

    from logbook.actions.copies import Copy
    from logbook.actions.restoring import RestorePlan
    from logbook.store.copies import Progress

SIGNS = {"good": "ok", "note": "note", "warning": "WARNING", "bad": "BAD"}


@contextmanager
def shown_progress(what: str) -> Iterator[Progress]:
    """Give something that is told the progress and draws it, where there is a terminal."""
    if not sys.stderr.isatty():
        yield lambda _done, _all: None
        return
    with click.progressbar(length=1000, label=what, file=sys.stderr) as bar:
        reached = 0

        def step(done: int, total: int) -> None:
            nonlocal reached
            now = 1000 * done // max(1, total)
            bar.update(now - reached)
            reached = now

        yield step


def shown(path: Path) -> str:
    """Write a path so that it cannot harm the terminal."""
    return clean(str(path), lines=False)


def _utc(at: datetime | None) -> str | None:
    return None if at is None else at.astimezone(UTC).isoformat(timespec="seconds")


def _copy_json(copy: Copy) -> dict[str, Any]:
    return {
        "copy": str(copy.path),
        "made_at": _utc(copy.made),
        "bytes": copy.size,
        "daily": copy.day is not None,
    }


def copy_target(text: str) -> Path:
    """Give the path of a copy or of a folder for it; what is named as a folder, with a / behind it, must be one."""
    path = named_book(text)
    if text.endswith(("/", os.sep)) and not path.is_dir():
        raise Refused(
            f"There is no folder {path}. If it is on a stick, plug that in; nothing was copied."
        )
    return path


@click.command("copy")
@click.argument("target", required=False)
@click.option("--daily", is_flag=True, help="Today's copy, unless it is there; for a timer.")
@json_option
@pass_options
def copy_command(options: Options, target: str | None, daily: bool, as_json: bool) -> None:
    """Make a checked copy of the book: to TARGET (a file or a folder), or beside the book."""
    from logbook.actions.keeping import copy_book, daily_copy
    from logbook.store.rooms import megabytes

    if daily and target is not None:
        raise Refused("The daily copy has its own place; leave the target out.")
    path = None if target is None else copy_target(target)
    book = options.open()
    with shown_progress("copying") as progress:
        made = (
            daily_copy(book, progress=progress)
            if daily
            else copy_book(book, path, progress=progress)
        )
    if as_json:
        print_json({"copy": None} if made is None else _copy_json(made))
    elif made is not None:
        click.echo(f"The copy is {shown(made.path)}, checked, {megabytes(made.size)}.")


@click.command("restore")
@click.argument("copy", required=False, type=named_book)
@click.option("--dry-run", is_flag=True, help="Say what it would lose; change nothing.")
@click.option("--yes", is_flag=True, help="Do it without asking.")
@json_option
@pass_options
def restore_command(
    options: Options, copy: Path | None, dry_run: bool, yes: bool, as_json: bool
) -> None:
    """Go back to COPY; the present book is kept beside it. Without COPY: list the copies."""
    from logbook.actions.keeping import named_copy
    from logbook.actions.restoring import restore, restore_preview

    if copy is None:
        _list(options, as_json)
        return
    copy = named_copy(options.path, copy)
    plan = restore_preview(options.path, copy)
    if not as_json:
        click.echo(clean("\n".join(plan.words)))
    aside = None
    if not dry_run:
        if not yes:
            if not sys.stdin.isatty():
                raise Refused("Nothing was changed. Add --yes to go back to the copy.")
            if not click.confirm("Go back to it?", err=True):
                raise Refused("Nothing was changed.")
        with shown_progress("restoring") as progress:
            aside = restore(options.path, copy, options.clock(), options.writer, progress).aside
    if as_json:
        print_json(_plan_json(plan, aside, dry_run=dry_run))
    elif not dry_run:
        kept = f" What was there before is {shown(aside)}." if aside else ""
        click.echo(f"The book is the copy now.{kept}")


def _plan_json(plan: RestorePlan, aside: Path | None, *, dry_run: bool) -> dict[str, Any]:
    loss = plan.loss
    return {
        "copy": str(plan.copy),
        "entries": plan.holds.entries,
        "newest_entry_at": _utc(plan.holds.newest),
        "lost_entries": None if loss is None else loss.entries,
        "lost_from": _utc(loss.first) if loss else None,
        "lost_to": _utc(loss.last) if loss else None,
        "lost_rows": dict(loss.rows) if loss else None,
        "restored": not dry_run,
        "aside": str(aside) if aside else None,
    }


def _list(options: Options, as_json: bool) -> None:
    from logbook.actions.copies import copies_folder, list_copies
    from logbook.store.rooms import megabytes

    copies = list_copies(options.path)
    if as_json:
        print_json({"copies": [_copy_json(copy) for copy in copies]})
        return
    for copy in copies:
        daily = "daily" if copy.day else ""
        click.echo(
            f"{copy.made:%Y-%m-%d %H:%M} UTC  {megabytes(copy.size):>8}  {daily:5}  {shown(copy.path)}"
        )
    if not copies:
        say(f"There are no copies in {copies_folder(options.path)}; `logbook copy` makes one.")


@click.command("check")
@click.option("--quick", is_flag=True, help="A quick look: indexes and summaries are left out.")
@click.option("--mend", is_flag=True, help="Put right what can be without losing anything.")
@json_option
@pass_options
def check_command(options: Options, quick: bool, mend: bool, as_json: bool) -> None:
    """Check the book and what it rests on, and say what to do. Exit code 1 when something is bad."""
    from logbook.actions.checking import check, keep_verdict
    from logbook.actions.checking import mend as put_right

    done: list[str] = []
    if mend:
        with shown_progress("mending") as progress:
            done = put_right(options.path, options.clock(), by=options.writer, progress=progress)
    with shown_progress("checking") as progress:
        found = check(options.path, options.clock(), quick=quick, progress=progress)
    keep_verdict(options.path, options.clock().now().date(), found, quick=quick)
    if as_json:
        print_json({"mended": done, "findings": [asdict(each) for each in found]})
    else:
        for line in done:
            click.echo(f"mended   {line}")
        for each in found:
            click.echo(f"{SIGNS[each.severity]:8} {clean(each.words)}")
            if each.todo:
                click.echo(f"         {clean(in_shell(each.todo))}")
    if any(each.severity == "bad" for each in found):
        raise click.exceptions.Exit(1)
