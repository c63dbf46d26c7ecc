"""Every plain command, with its subcommands: for the handbook, the manual page and the tests."""

from __future__ import annotations

from collections.abc import Iterator

import click

from logbook.handbook import Plain


def every_command() -> Iterator[tuple[click.Context, click.Command]]:
    """Give each command with a context that knows its path, in the order of the table."""
    from logbook.cli.app import logbook, top_context

    yield from _below(top_context(), logbook)


def _below(
    parent: click.Context, group: click.Group
) -> Iterator[tuple[click.Context, click.Command]]:
    for name in group.list_commands(parent):
        command = group.get_command(parent, name)
        if command is None:
            continue
        ctx = click.Context(command, info_name=name, parent=parent)
        yield ctx, command
        if isinstance(command, click.Group):
            yield from _below(ctx, command)


def words_of(ctx: click.Context) -> str:
    """Give a command's words without "logbook": "templates show"."""
    return ctx.command_path.partition(" ")[2]


def usage_of(ctx: click.Context, command: click.Command) -> str:
    """Give how a command is written, options left out: "weigh TRAYS WEIGHT"."""
    if isinstance(command, click.Group):
        return words_of(ctx)
    pieces = [piece for piece in command.collect_usage_pieces(ctx) if piece != "[OPTIONS]"]
    return " ".join([words_of(ctx), *pieces])


def first_sentence(command: click.Command) -> str:
    """Give what a command does, in its help's first paragraph."""
    return " ".join((command.help or "").partition("\n\n")[0].split())


def plain_commands() -> list[Plain]:
    """Give every plain command as the handbook lists it."""
    return [
        Plain(usage_of(ctx, command), first_sentence(command)) for ctx, command in every_command()
    ]
