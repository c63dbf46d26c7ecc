"""A command group whose commands are imported when they are called, not before."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click


class LazyGroup(click.Group):
    """A click group with a table of name → ("module:attribute", one line of help).

    `above` is the words of the group itself, where it is a command of another one.
    """

    def __init__(
        self,
        *args: Any,
        table: Mapping[str, tuple[str, str]] | None = None,
        above: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.above = above
        self.table = dict(table or {})

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands in the order of the table."""
        return [*self.table, *super().list_commands(ctx)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the command's module and give the command."""
        if cmd_name not in self.table:
            return super().get_command(ctx, cmd_name)
        module, _, attribute = self.table[cmd_name][0].partition(":")
        command = getattr(import_module(module), attribute)
        if not isinstance(command, click.Command):
            raise TypeError(f"{self.table[cmd_name][0]} is not a command")
        from logbook.cli.examples import show_examples

        show_examples(f"{self.above} {cmd_name}".lstrip(), command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands with the table's words, importing none of them."""
        rows = [(name, words) for name, (_, words) in self.table.items()]
        rows += [(name, command.get_short_help_str(70)) for name, command in self.commands.items()]
        if rows:
            with formatter.section("Commands"):
                formatter.write_dl(rows)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command; a mistyped name gets the nearest one as a hint."""
        from logbook.text import nearest

        name = args[0] if args else ""
        if name and not name.startswith("-") and self.get_command(ctx, name) is None:
            hint = nearest(name, self.list_commands(ctx))
            raise click.UsageError(f'There is no command "{name}".{hint}', ctx)
        return super().resolve_command(ctx, args)
