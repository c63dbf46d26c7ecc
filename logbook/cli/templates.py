"""`logbook templates`: list, show, put, copy and retire crop templates."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from logbook.cli.arguments import complete_templates, json_option
from logbook.cli.files import named_file
from logbook.cli.lazy import LazyGroup
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import print_json
from logbook.growing.measures import grams_words, spread_words

if TYPE_CHECKING:
    from logbook.growing.templates import CropTemplate


@click.group(cls=LazyGroup, above="templates", invoke_without_command=True)
@click.option("--retired", is_flag=True, help="Retired ones too.")
@json_option
@click.pass_context
def templates(ctx: click.Context, retired: bool, as_json: bool) -> None:
    """Show the crop templates; put, copy or retire one."""
    if ctx.invoked_subcommand is not None:
        return
    from logbook.actions.templates import list_templates
    from logbook.growing.template_text import template_mapping

    book = ctx.find_object(Options).open()  # type: ignore[union-attr]
    found = list_templates(book, retired=retired)
    if as_json:
        print_json(
            {"templates": [{**template_mapping(each), "version": each.version} for each in found]}
        )
        return
    for each in found:
        guess = ", starting guess" if each.guess else ""
        seed = (
            f", {grams_words(each.seed_grams, book.units)} seed"
            if each.seed_grams is not None
            else ""
        )
        cut = (
            f", {grams_words(each.expected_grams, book.units)} cut"
            if each.expected_grams is not None
            else ""
        )
        click.echo(f"{each.name}: version {each.version}{seed}{cut}{guess}")


@templates.command("show")
@click.argument("name", shell_complete=complete_templates)
@click.option("--toml", "as_toml", is_flag=True, help="Print it as a file to change and put.")
@json_option
@pass_options
def show(options: Options, name: str, as_toml: bool, as_json: bool) -> None:
    """Show one template."""
    from logbook.actions.templates import show_template
    from logbook.growing.template_text import template_mapping, template_words

    book = options.open()
    view = show_template(book, name)
    if as_json:
        expected = view.expected
        print_json(
            {
                **template_mapping(view.template),
                "version": view.template.version,
                "retired": view.retired,
                "room_expects_grams": None if expected is None else round(expected.grams, 1),
                "room_spread_grams": None if expected is None else round(expected.spread_grams, 1),
                "rests_on_trays": None if expected is None else expected.trays,
            }
        )
        return
    if as_toml:
        import tomli_w

        click.echo(tomli_w.dumps(template_mapping(view.template)), nl=False)
        return
    click.echo("\n".join(template_words(view.template, book.units, view.expected)))
    if view.expected is not None and view.expected.trays:
        click.echo(
            f"this room: "
            f"{spread_words(view.expected.grams, view.expected.spread_grams, book.units)} "
            f"({view.expected.rests_on})"
        )
    if view.retired:
        click.echo("retired")


@templates.command("put")
@click.argument("file", type=named_file, metavar="PATH")
@json_option
@pass_options
def put(options: Options, file: Path, as_json: bool) -> None:
    """Write a TOML file as a template, or as a new version of the one of that name."""
    from logbook.actions.templates import put_template_file

    written = put_template_file(options.open(), file)
    _say_written(written, as_json)


@templates.command("copy")
@click.argument("name", shell_complete=complete_templates)
@click.argument("new_name")
@json_option
@pass_options
def copy(options: Options, name: str, new_name: str, as_json: bool) -> None:
    """Copy a template under another name."""
    from logbook.actions.templates import copy_template

    written = copy_template(options.open(), name, new_name)
    _say_written(written, as_json)


@templates.command("retire")
@click.argument("name", shell_complete=complete_templates)
@click.option("--back", is_flag=True, help="Take a retired one back.")
@json_option
@pass_options
def retire(options: Options, name: str, back: bool, as_json: bool) -> None:
    """Retire a template: it stays in the record and is no longer offered."""
    from logbook.actions.templates import retire_template

    template = retire_template(options.open(), name, back=back)
    if as_json:
        print_json(_written_json(template, retired=not back))
        return
    click.echo(f"{template.name} is {'back' if back else 'retired'}.")


def _say_written(template: CropTemplate, as_json: bool) -> None:
    if as_json:
        print_json(_written_json(template, retired=False))
    else:
        click.echo(f"{template.name}: version {template.version} is written.")


def _written_json(template: CropTemplate, *, retired: bool) -> dict[str, Any]:
    from logbook.growing.template_text import template_mapping

    return {**template_mapping(template), "version": template.version, "retired": retired}
