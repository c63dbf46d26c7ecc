"""What each command prints with --json, as JSON schemas: derived from the views it answers with."""

from logbook.cli.answers import schema_of_views
from logbook.cli.app import top_context
from logbook.cli.listing import every_command, words_of
from logbook.cli.printing import JsonOption
from logbook.cli.shapes import Json


def views_by_command() -> dict[str, tuple[str, ...]]:
    """The words of every command that has --json → the views that it may answer with."""
    return {
        words_of(ctx): option.views
        for ctx, command in every_command(top_context())
        for option in command.params
        if isinstance(option, JsonOption)
    }


def names() -> list[str]:
    """Every command that has --json."""
    return list(views_by_command())


def schema_of(name: str) -> Json:
    """A command's schema with its head."""
    return schema_of_views(f"logbook {name} --json", views_by_command()[name])
