"""Completion of commands in bash, zsh and fish."""

import click
from click.shell_completion import BashComplete, FishComplete, get_completion_class


class QuotingBash(BashComplete):
    """Completion in bash that quotes what it inserts.

    A name from the book may hold spaces, or what bash would run: outside quotes it is inserted with
    backslashes. zsh and fish do that by themselves.
    """

    source_template = """\
%(complete_func)s() {
    local IFS=$'\\n' type value
    while IFS=',' read -r type value; do
        if [[ $type != plain ]]; then
            compopt -o default
        elif [[ ${COMP_WORDS[COMP_CWORD]} == [\\"\\']* ]]; then
            COMPREPLY+=("$value")
        else
            COMPREPLY+=("$(printf '%%q' "$value")")
        fi
    done < <(env COMP_WORDS="${COMP_WORDS[*]}" COMP_CWORD=$COMP_CWORD %(complete_var)s=bash_complete "$1")
}
complete -o nosort -F %(complete_func)s %(prog_name)s
"""


class WholeFish(FishComplete):
    """Completion in fish that gives names whole in which there is a comma."""

    source_template = FishComplete.source_template.replace(
        'string split ","', 'string split --max 1 ","'
    )


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print the completion script: eval "$(logbook completion bash)"."""
    from logbook.cli.app import logbook

    ours = {"bash": QuotingBash, "fish": WholeFish}
    made = ours.get(shell) or get_completion_class(shell)
    assert made is not None  # noqa: S101 - click knows all three
    click.echo(made(logbook, {}, "logbook", "_LOGBOOK_COMPLETE").source())
