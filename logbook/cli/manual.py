"""The manual page in the language of man (roff), made from the commands themselves."""

import re
import textwrap

import click

from logbook import RELEASED, __version__
from logbook.cli.argument_words import argument_words
from logbook.cli.examples import examples
from logbook.cli.listing import every_command, usage_of, words_of
from logbook.growing.cautions import shown_by
from logbook.paths import BOOK_VARIABLE


def plain(text: str) -> str:
    """Write a text so that roff takes none of it for a request or an escape."""
    text = text.replace("\\", r"\e").replace("-", r"\-").replace("`", r"\(ga")
    text = re.sub(r"[^\x00-\x7f]", lambda found: rf"\[u{ord(found[0]):04X}]", text)
    return re.sub(r"^(?=[.'])", r"\\&", text, flags=re.MULTILINE)


def _bold(text: str) -> str:
    return rf"\fB{plain(text)}\fR"


def _parameter(ctx: click.Context, parameter: click.Parameter) -> list[str]:
    if isinstance(parameter, click.Argument):
        name = parameter.make_metavar(ctx).strip("[]").removesuffix("...").strip("]")
        return _term(name, argument_words(words_of(ctx), parameter.name or ""))
    record = parameter.get_help_record(ctx)
    return [] if record is None else _term(record[0], " ".join(record[1].split()))


def _term(name: str, words: str) -> list[str]:
    return [".TP", _bold(name), *_lines(words)]


def _lines(words: str) -> list[str]:
    """Words as lines of the page's source, none of them long."""
    cut = textwrap.wrap(words, 60, break_long_words=False, break_on_hyphens=False)
    return [plain(line) for line in cut]


def _paragraphs(help_text: str) -> list[str]:
    """The paragraphs of a help; the first follows its head."""
    lines: list[str] = []
    for paragraph in help_text.split("\n\n"):
        lines += [".PP", *_lines(" ".join(paragraph.replace("\b", "").split()))]
    return lines[1:]


def _command(ctx: click.Context, command: click.Command) -> list[str]:
    lines = [f'.SS "{plain(usage_of(ctx, command))}"', *_paragraphs(command.help or "")]
    for parameter in command.params:
        lines += _parameter(ctx, parameter)
    shown = examples().get(words_of(ctx), ())
    drawn = [".PP", ".EX", *(plain(f"  {line}") for line in shown), ".EE"]
    minded = shown_by(words_of(ctx))
    careful = [".PP", *_lines(" ".join(("Take care.", *minded)))] if minded else []
    return lines + (drawn if shown else []) + careful


def manual_page() -> str:
    """The manual page in roff, of section 1: every command, the environment, the files."""
    from logbook.cli.app import logbook, top_context

    top = top_context()
    lines = [
        f'.TH LOGBOOK 1 "{RELEASED}" "logbook {__version__}" "User commands"',
        ".SH NAME",
        r"logbook \- a daily grow\-room logbook in the terminal",
        ".SH SYNOPSIS",
        r".B logbook",
        r"[\fIoptions\fR] [\fIcommand\fR]",
        ".SH DESCRIPTION",
        *_paragraphs(logbook.help or ""),
        ".SH OPTIONS",
    ]
    for parameter in logbook.params:
        lines += _parameter(top, parameter)
    lines.append(".SH COMMANDS")
    for ctx, command in every_command(top):
        lines += _command(ctx, command)
    lines += [
        ".SH EXIT STATUS",
        *_lines(
            "0 when it was done, 1 when it was refused with a sentence, 2 when a part of the command "
            "is missing, unknown or doesn't go with another, 3 when it was written but could not be "
            "printed, 130 when it was stopped with Ctrl-C."
        ),
        ".SH ENVIRONMENT",
        *_term(BOOK_VARIABLE, "Which book."),
        *_term("LOGBOOK_BY", "Who writes."),
        *_term("LOGBOOK_PASSWORD", "The password of `logbook serve`, if no file holds it."),
        *_term("NO_COLOR", "If set, the screens use no colour."),
        *_term(
            "XDG_DATA_HOME", "Where the book is, in growroom-logbook; by default ~/.local/share."
        ),
        *_term("XDG_CONFIG_HOME", "Where the settings are; by default ~/.config."),
        *_term(
            "XDG_STATE_HOME", "Where drafts and the log of faults are; by default ~/.local/state."
        ),
        ".SH FILES",
        *_term("~/.local/share/growroom-logbook/room.book", "The book, if no other is named."),
        *_term("~/.config/growroom-logbook/settings.toml", "A person's settings."),
        *_term(
            "~/.local/state/growroom-logbook/",
            "Drafts of what was being typed, and the log of faults.",
        ),
        ".SH SEE ALSO",
        rf"{_bold('logbook handbook')} prints the handbook, by job.",
    ]
    return "\n".join([*lines, ""])
