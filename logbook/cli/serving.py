"""The command that opens the screens in a browser."""

import os
import shlex
import socket
import sys
from functools import partial
from pathlib import Path

import click

import logbook
from logbook.cli.files import FileName
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import say
from logbook.cli.usage import INTERRUPTED
from logbook.paths import BOOK_VARIABLE
from logbook.text import HARMFUL, Refused

NEEDED = ("aiohttp", "textual_serve")
START = "import sys; sys.path.insert(0, sys.argv.pop(1)); from logbook.__main__ import main; main()"
"""Starts this same copy of the program, whatever lies in the folder that one stands in."""


@click.command()
@click.option(
    "--host",
    default="127.0.0.1",
    help="Address to listen on; others need a password.",
)
@click.option("--port", default=8000, type=click.IntRange(1, 65535), help="Port; 8000 by default.")
@click.option(
    "--password-file", metavar="FILE", type=FileName(),
    help="Ask for the password in its first line (or in LOGBOOK_PASSWORD).",
)  # fmt: skip
@click.option("--name", "names", multiple=True, help="Another name that browsers may use.")
@click.option(
    "--tabs", default=8, type=click.IntRange(1, 64), help="How many open tabs; 8 by default."
)
@pass_options
def serve(
    options: Options, host: str, port: int, password_file: Path | None, names: tuple[str, ...],
    tabs: int,
) -> None:  # fmt: skip
    """Open the screens in a browser, also on a phone; one process for each open tab.

    Only this machine can reach it, unless there is a password and --host says otherwise. There is
    no encryption here: from elsewhere an SSH tunnel is better, and the start says how.
    """
    _look_for_extra()
    from logbook.serving.door import Door, is_loopback, read_password
    from logbook.serving.server import FEED, BookServer, Serving

    _check_host(host)
    password = read_password(password_file, os.environ)
    elsewhere = not is_loopback(host)
    if password is None and (elsewhere or names):
        raise Refused(
            "Other machines need a password: write one into a file, run chmod "
            "600 on it and give it with --password-file. Safer: leave --host and --name out and "
            f"come through an SSH tunnel ({_tunnel(port)})."
        )
    _look_at_book(options)
    machine, door = socket.gethostname(), Door(password)
    server = BookServer(
        Serving(_command(options), door, host, port, tabs, machine, names, partial(_feed, options))
    )
    address = f"http://{_written(host, machine)}:{port}"
    click.echo(f"The book is at {address} (ctrl+c ends).")
    key = f"?key={door.feed_key}" if door.locked else ""
    click.echo(f"Its calendar: {address}{FEED}{key}")
    if elsewhere:
        say(
            "Caution: there is no encryption here. Anyone who can listen on this network can read "
            "the password and the book. Safer: leave --host out and come through an SSH tunnel."
        )
    elif password is None:
        say("Anyone logged in on this machine can open it; --password-file asks for a password.")
    click.echo(f"From another machine: {_tunnel(port)} and open http://localhost:{port} there.")
    server.run(say)
    if server.interrupted:
        raise click.exceptions.Exit(INTERRUPTED)


def _check_host(host: str) -> None:
    try:
        host.encode("idna")
    except UnicodeError as fault:
        raise Refused(f'"{host[:60]}" is not the name or address of a machine.') from fault
    if HARMFUL.search(host):
        raise Refused(f'"{host[:60]}" holds control codes; give a name or address of a machine.')


def _look_for_extra() -> None:
    from importlib.util import find_spec

    if any(find_spec(module) is None for module in NEEDED):
        raise Refused(
            'Serving needs the extra "browser": run pip install ".[browser]" in the folder of the '
            "program."
        )


def _look_at_book(options: Options) -> None:
    """Raise Refused when the book cannot be opened; none at all is asked for in the browser."""
    from logbook.settings import read_settings
    from logbook.store.file.faults import NoBook

    read_settings()
    try:
        options.open()
    except NoBook:
        return


def _feed(options: Options, deliveries: bool) -> str:
    from logbook.exchange.calendar_file import calendar_of

    return calendar_of(options.open(), deliveries=deliveries).text


def _command(options: Options) -> str:
    root = str(Path(logbook.__file__).parents[1])
    words = [sys.executable, "-P", "-c", START, root]
    where = options.where
    if isinstance(where, Path):
        words += ["--book", str(where.absolute())]
    else:  # all on the machine may read a command, and it may hold a password
        os.environ[BOOK_VARIABLE] = where.given
    words += ["--by", options.writer]
    if options.now is not None:
        words += ["--now", options.now]
    return f"exec {shlex.join(words)}"


def _written(host: str, machine: str) -> str:
    if host in ("0.0.0.0", "::", ""):  # noqa: S104 - compared, not bound
        return machine
    return f"[{host}]" if ":" in host else host


def _tunnel(port: int) -> str:
    person = os.environ.get("USER") or "NAME"
    return f"ssh -L {port}:127.0.0.1:{port} {person}@{socket.gethostname()}"
