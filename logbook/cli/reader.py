"""The commands that explain: handbook, schema, man."""

import click

from logbook import handbook as chapters
from logbook.cli.completing import completer
from logbook.cli.names import words_now
from logbook.cli.printing import print_json
from logbook.cli.usage import WrongUsage
from logbook.text import Refused, nearest


def _with_schemas() -> list[str]:
    from logbook.cli.schemas import names

    return names()


@click.command()
@click.argument("chapter", required=False, shell_complete=completer(lambda: chapters.CHAPTERS))
@click.option("--all", "whole", is_flag=True, help="All chapters, one after the other.")
def handbook(chapter: str | None, whole: bool) -> None:
    """Print a chapter of the handbook as Markdown; with none named, list the chapters."""
    if whole and chapter is not None:
        raise WrongUsage("Give a chapter or --all, not both.")
    if whole:
        click.echo("\n".join(chapter_words(name) for name in chapters.CHAPTERS), nl=False)
    elif chapter is not None:
        click.echo(chapter_words(chapters.named_chapter(chapter)), nl=False)
    else:
        for name in chapters.CHAPTERS:
            click.echo(f"{name:10} {chapters.title_of(name)}")


def chapter_words(name: str) -> str:
    """A chapter as Markdown for a terminal; the last three are made from declarations."""
    if name == chapters.ENTRIES:
        from logbook.growing.kinds import purposes

        return chapters.entries_chapter(purposes())
    if name == chapters.CARE:
        from logbook.growing.cautions import care_chapter

        return care_chapter()
    if name != chapters.KEYS:
        return chapters.without_pictures(chapters.chapter_text(name))
    from logbook.cli.app import top_context
    from logbook.cli.listing import plain_commands
    from logbook.ui.commands import keys_listed

    return chapters.keys_chapter(*keys_listed(), plain_commands(top_context()))


@click.command()
@click.argument("command", nargs=-1, shell_complete=completer(_with_schemas))
def schema(command: tuple[str, ...]) -> None:
    """Print the JSON schema of what a command prints with --json; with none named, list them."""
    from logbook.cli.schemas import names, schema_of

    known = names()
    if not command:
        click.echo("\n".join(known))
        return
    name = words_now(" ".join(command).removeprefix("logbook "))
    if name not in known:
        raise Refused(
            f'There is no schema for "{name[:40]}".{nearest(name, known)} '
            "`logbook schema` lists them."
        )
    print_json(schema_of(name))


@click.command()
def man() -> None:
    """Print the manual page: logbook man > logbook.1, then man ./logbook.1."""
    from logbook.cli.manual import manual_page

    click.echo(manual_page(), nl=False)
