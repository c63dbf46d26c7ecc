"""The commands about the book: begin, demo, templates, places, completion."""

from __future__ import annotations

from pathlib import Path

import click

from logbook.cli.app import Options, pass_options
from logbook.cli.arguments import (
    at_option,
    complete_places,
    complete_templates,
    json_option,
    named_book,
    named_file,
    when,
)
from logbook.cli.printing import print_json
from logbook.growing.when import parse_lamp_hours
from logbook.text import Refused, plural


@click.command()
@click.option("--name", default="Grow room", show_default=True, help="What the room is called.")
@click.option("--zone", help="Time zone, like Europe/London; the machine's without it.")
@click.option("--racks", default=2, show_default=True, help="Racks in the room.")
@click.option("--shelves", default=4, show_default=True, help="Shelves a rack.")
@click.option("--slots", default=4, show_default=True, help="Trays a shelf.")
@click.option(
    "--units", type=click.Choice(["metric", "us"]), default="metric", show_default=True,
    help="Units of weights and lengths.",
)  # fmt: skip
@click.option("--lamps", default="06:00-22:00", show_default=True, help="Lamp hours, or none.")
@click.option("--first-day", type=click.IntRange(0, 1), default=1, help="Number of the sowing day.")
@pass_options
def begin(
    options: Options, name: str, zone: str | None, racks: int, shelves: int, slots: int,
    units: str, lamps: str, first_day: int,
) -> None:  # fmt: skip
    """Make a new book with its racks and the starting crop templates."""
    from logbook.actions.begin import BeginDraft, begin_book, local_zone_name

    zone = zone or local_zone_name()
    on, off = parse_lamp_hours(lamps)
    draft = BeginDraft(name, zone, racks, shelves, slots, units, on, off, first_day)
    path = options.path
    from logbook.actions.begin import checked_begin

    checked_begin(draft)
    book = begin_book(path, draft, options.clock(zone), options.writer)
    click.echo(
        f"{book.about.name}: {plural(racks, 'rack')} of {plural(shelves, 'shelf', 'shelves')} of "
        f"{plural(slots, 'slot')}, times in {book.about.zone}. The book is {path}."
    )


@click.command()
@click.option("--keep", type=named_book, metavar="PATH", help="Keep the sample book at this path.")
@click.option("--tour/--no-tour", default=None, help="Begin the tour of the screens, or leave it.")
@pass_options
def demo(options: Options, keep: Path | None, tour: bool | None) -> None:
    """Open a fresh sample book around today. It never touches yours."""
    from logbook.cli.screen import open_demo

    open_demo(options, keep, tour)


@click.group(invoke_without_command=True)
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
        seed = f", {each.seed_grams:g} g seed" if each.seed_grams is not None else ""
        cut = f", {each.expected_grams:g} g cut" if each.expected_grams is not None else ""
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
    click.echo("\n".join(template_words(view.template, book.units)))
    if view.expected is not None and view.expected.trays:
        click.echo(
            f"this room: {view.expected.grams:.0f} ± {view.expected.spread_grams:.0f} g "
            f"({view.expected.rests_on})"
        )
    if view.retired:
        click.echo("retired")


@templates.command("put")
@click.argument("file", type=named_file, metavar="PATH")
@pass_options
def put(options: Options, file: Path) -> None:
    """Write a TOML file as a template, or as a new version of the one of that name."""
    from logbook.actions.templates import put_template_file

    written = put_template_file(options.open(), file)
    click.echo(f"{written.name}: version {written.version} is written.")


@templates.command("copy")
@click.argument("name", shell_complete=complete_templates)
@click.argument("new_name")
@pass_options
def copy(options: Options, name: str, new_name: str) -> None:
    """Copy a template under another name."""
    from logbook.actions.templates import copy_template

    written = copy_template(options.open(), name, new_name)
    click.echo(f"{written.name}: version {written.version} is written.")


@templates.command("retire")
@click.argument("name", shell_complete=complete_templates)
@click.option("--back", is_flag=True, help="Take a retired one back.")
@pass_options
def retire(options: Options, name: str, back: bool) -> None:
    """Retire a template: it stays in the record and is no longer offered."""
    from logbook.actions.templates import retire_template

    template = retire_template(options.open(), name, back=back)
    click.echo(f"{template.name} is {'back' if back else 'retired'}.")


@click.group(invoke_without_command=True)
@click.option("--retired", is_flag=True, help="Retired ones too.")
@json_option
@click.pass_context
def places(ctx: click.Context, retired: bool, as_json: bool) -> None:
    """Show racks and shelves in walking order; add, change or retire one."""
    if ctx.invoked_subcommand is not None:
        return
    from logbook.actions.places import list_places
    from logbook.growing.when import wall_words

    book = ctx.find_object(Options).open()  # type: ignore[union-attr]
    found = list_places(book, retired=retired)
    if as_json:
        print_json(
            {
                "places": [
                    {
                        "place": each.place.path,
                        "kind": each.place.kind,
                        "slots": each.place.slots,
                        "used": each.used,
                        "free": each.free,
                        "lamp_on": wall_words(each.place.lamp_on) or None,
                        "lamp_off": wall_words(each.place.lamp_off) or None,
                        "retired": each.place.retired,
                    }
                    for each in found
                ]
            }
        )
        return
    for each in found:
        if each.place.kind == "shelf":
            click.echo(
                f"{each.place.path}: {each.used} of {each.place.slots} slots, "
                f"{each.place.hours_words}"
            )
        else:
            click.echo(f"{each.place.path} ({each.place.kind}): {each.free} slots free")


@places.command("add")
@click.argument("name")
@click.option(
    "--kind", type=click.Choice(["room", "rack", "shelf"]), default="shelf", show_default=True,
    help="What it is.",
)  # fmt: skip
@click.option("--under", default="", shell_complete=complete_places, help="The rack or room.")
@click.option("--slots", default=4, show_default=True, help="Trays that a shelf holds.")
@click.option("--lamps", default="none", show_default=True, help="Lamp hours, like 06:00-22:00.")
@pass_options
def add(options: Options, name: str, kind: str, under: str, slots: int, lamps: str) -> None:
    """Add a room, rack or shelf."""
    from logbook.actions.places import PlaceDraft, add_place

    on, off = parse_lamp_hours(lamps)
    draft = PlaceDraft(name, kind, under, slots, on, off)  # type: ignore[arg-type]
    place = add_place(options.open(), draft)
    click.echo(f"{place.path} is there.")


@places.command("change")
@click.argument("path", shell_complete=complete_places)
@click.option("--name", help="A new name.")
@click.option("--slots", type=int, help="How many trays it holds.")
@click.option("--lamps", help="Lamp hours, like 06:00-22:00, or none.")
@at_option
@click.option("--earlier", is_flag=True, help="One step earlier in walking order.")
@click.option("--later", is_flag=True, help="One step later in walking order.")
@pass_options
def change(
    options: Options, path: str, name: str | None, slots: int | None, lamps: str | None,
    at: str | None, earlier: bool, later: bool,
) -> None:  # fmt: skip
    """Change a place's name, slots, lamp hours (from --at on) or walking order."""
    from logbook.actions.places import PlaceDraft, change_place, list_places, walk_earlier
    from logbook.growing.places import find_place

    book = options.open()
    place = find_place(path, [each.place for each in list_places(book)])
    if earlier or later:
        if earlier == later or (name, slots, lamps) != (None, None, None):
            raise Refused("Give --earlier or --later alone; change the rest by a second command.")
        click.echo(f"{walk_earlier(book, place.path, later=later).path} is moved.")
        return
    on, off = parse_lamp_hours(lamps) if lamps is not None else (place.lamp_on, place.lamp_off)
    draft = PlaceDraft(
        name if name is not None else place.name,
        place.kind,
        slots=slots if slots is not None else place.slots,
        lamp_on=on,
        lamp_off=off,
    )
    click.echo(f"{change_place(book, place.path, draft, when(book, at)).path} is changed.")


@places.command("retire")
@click.argument("path", shell_complete=complete_places)
@pass_options
def retire_one(options: Options, path: str) -> None:
    """Retire a place that holds no trays."""
    from logbook.actions.places import retire_place

    click.echo(f"{retire_place(options.open(), path).path} is retired.")


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print the completion script: eval "$(logbook completion bash)"."""
    from logbook.cli.app import logbook
    from logbook.cli.completion import completion_class

    click.echo(completion_class(shell)(logbook, {}, "logbook", "_LOGBOOK_COMPLETE").source())
