"""Wrong usage, in sentences of our own."""

import re

import click

from logbook.text import Refused, listed, nearest

INTERRUPTED = 130
"""What Ctrl-C exits with, as in every shell."""


class WrongUsage(Refused):
    """Something is missing from a command, or two parts of it don't go together."""


def usage_words(wrong: click.ClickException) -> str:
    """What is wrong with how a command was written; a sentence of ours stays as it is."""
    words = wrong.format_message()
    if isinstance(wrong, click.MissingParameter):
        return f"{_name(wrong)} is missing."
    if isinstance(wrong, click.BadParameter):
        return _value_words(wrong)
    if isinstance(wrong, click.NoSuchOption):
        name, whole = wrong.option_name, wrong.ctx.find_root().command if wrong.ctx else None
        if whole and any(name in one.opts for one in whole.params):
            return f"{name} goes before the command: `logbook {name} …`."
        close = f" Did you mean {wrong.possibilities[0]}?" if wrong.possibilities else ""
        return f"There is no option {name}.{close}"
    if isinstance(wrong, click.BadOptionUsage):
        takes = "takes no value" if "does not take" in words else "needs a value"
        return f"{wrong.option_name} {takes}."
    if extra := re.fullmatch(r"Got unexpected extra arguments? \((.*)\)", words, re.DOTALL):
        return f'"{extra[1][:60]}" is more than this command takes.'
    if unknown := re.fullmatch(r"No such command '(.*)'\.(?: Did you mean .*)?", words, re.DOTALL):
        return _unknown_words(unknown[1], wrong)
    if several := re.fullmatch(r"Argument '(.*)' takes (\d+) values\.", words):
        return f"Give {several[2]} {several[1]}."
    return words


def _unknown_words(name: str, wrong: click.ClickException) -> str:
    """That a group has no such command, and which it has."""
    said = f'There is no command "{name[:40]}".'
    ctx = wrong.ctx if isinstance(wrong, click.UsageError) else None
    if ctx is None or not isinstance(ctx.command, click.Group):
        return said
    known = ctx.command.list_commands(ctx)
    return f"{said}{nearest(name, known) or f' There are {listed(known)}.'}"


def _value_words(wrong: click.BadParameter) -> str:
    typed = re.match(r"'?(.*?)'? is not ", wrong.message, re.DOTALL)
    kind = wrong.param.type if wrong.param else None
    if typed is None or kind is None:
        return wrong.message
    if isinstance(kind, click.Choice):
        must = listed([*map(str, kind.choices)], joint="or")
    elif isinstance(kind, click.IntRange) and kind.min is not None and kind.max is not None:
        must = f"a whole number from {kind.min:,} to {kind.max:,}"
    elif isinstance(kind, click.IntRange):
        must = f"a whole number of {kind.min or 0:,} or more"
        if kind.max is not None:
            must = f"a whole number up to {kind.max:,}"
    elif isinstance(kind, click.FloatRange):
        must = f"a number from {kind.min:,} to {kind.max:,}"
    else:
        must = "a whole number" if isinstance(kind, click.types.IntParamType) else "a number"
    return f"{_name(wrong)} must be {must}; you typed {typed[1][:40]}."


def _name(wrong: click.BadParameter) -> str:
    """The option by its longest spelling, or the argument as the usage line has it."""
    if isinstance(wrong.param, click.Option):
        return max(wrong.param.opts, key=len)
    if wrong.param is None or isinstance(wrong.param.type, click.Choice):
        return f"The {wrong.param.name if wrong.param else 'value'}"
    return wrong.param.get_error_hint(wrong.ctx).strip("'[]").removesuffix("...")
