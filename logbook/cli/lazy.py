"""A command group whose commands are imported when they are called, not before."""

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from logbook.cli.names import name_now, options_now
from logbook.tried import meant_by


class LazyGroup(click.Group):
    """A group `above` its commands: name → ("module below logbook.cli:attribute", its help)."""

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
        name = name_now(self.above, cmd_name)
        if name not in self.table:
            return super().get_command(ctx, name)
        module, _, attribute = self.table[name][0].partition(":")
        command = getattr(import_module(f"logbook.cli.{module}"), attribute)
        if not isinstance(command, click.Command):
            raise TypeError(f"{self.table[name][0]} is not a command")
        from logbook.cli.examples import show_examples

        show_examples(f"{self.above} {name}".lstrip(), command)
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
        """Find the command, by an earlier name too; a mistyped one gets a hint."""
        from logbook.text import nearest

        name = name_now(self.above, args[0])
        command = self.get_command(ctx, name)
        if command is not None:
            return name, command, options_now(f"{self.above} {name}".lstrip(), args[1:])
        if not name or name.startswith("-"):
            return super().resolve_command(ctx, args)
        meant = "" if self.above else meant_by(name)
        hint = f" Use `logbook {meant}`." if meant else nearest(name, self.list_commands(ctx))
        raise click.UsageError(f'There is no command "{name}".{hint}', ctx)
