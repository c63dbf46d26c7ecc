"""Every plain command, with its subcommands: for the handbook, the manual page and the tests."""

from collections.abc import Iterator

import click

from logbook.handbook import Plain


def every_command(parent: click.Context) -> Iterator[tuple[click.Context, click.Command]]:
    """Each command below a group's context, with one that knows its path, in the table's order."""
    group = parent.command
    if not isinstance(group, click.Group):
        return
    for name in group.list_commands(parent):
        command = group.get_command(parent, name)
        if command is None:
            continue
        ctx = click.Context(command, info_name=name, parent=parent)
        yield ctx, command
        yield from every_command(ctx)


def words_of(ctx: click.Context) -> str:
    """A command's words without "logbook": "templates show"."""
    return ctx.command_path.partition(" ")[2]


def usage_of(ctx: click.Context, command: click.Command) -> str:
    """How a command is written, options left out: "weigh TRAYS WEIGHT"."""
    if isinstance(command, click.Group):
        return words_of(ctx)
    pieces = [piece for piece in command.collect_usage_pieces(ctx) if piece != "[OPTIONS]"]
    return " ".join([words_of(ctx), *pieces])


def plain_commands(top: click.Context) -> list[Plain]:
    """Every plain command as the handbook lists it: with its help's first paragraph, on one line."""
    return [
        Plain(usage_of(ctx, command), " ".join((command.help or "").partition("\n\n")[0].split()))
        for ctx, command in every_command(top)
    ]
