"""`logbook templates`: list, show, put, copy and retire crop templates."""

from collections.abc import Iterator
from pathlib import Path

import click
import tomli_w

from logbook.actions.book import Book
from logbook.actions.crops import templates as acts
from logbook.actions.crops.template_table import template_columns
from logbook.cli.arguments import SETTINGS_AT
from logbook.cli.completing import complete_templates
from logbook.cli.files import FileName
from logbook.cli.lazy import LazyGroup
from logbook.cli.printing import book_answers, tell, width
from logbook.growing.crops.template_fields import mapping_of
from logbook.growing.crops.template_text import template_words
from logbook.growing.measures import Units, range_words, sides_words
from logbook.growing.quantities import tray_size
from logbook.growing.table import table


@click.group(cls=LazyGroup, above="templates", invoke_without_command=True)
@click.option("--retired", is_flag=True, help="Retired ones too.")
@book_answers("templates=logbook.growing.crops.templates:CropTemplate")
def templates(book: Book, retired: bool) -> None:
    """Show the crop templates; put, copy or retire one."""
    found = [each for each in acts.all_templates(book) if retired or not each.retired]
    drawn = table(template_columns(book.units), found, width())
    tell({"templates": [each.template for each in found]}, drawn.lines)


@templates.command("show")
@click.argument("name", shell_complete=complete_templates)
@click.option("--toml", "as_toml", is_flag=True, help="Print it as a TOML file, to change and put.")
@book_answers("logbook.actions.crops.templates:TemplateView")
def show(book: Book, name: str, as_toml: bool) -> None:
    """Show one template."""
    view = acts.show_template(book, name)
    toml = tomli_w.dumps(mapping_of(view.template)).removesuffix("\n")
    tell(view, [toml] if as_toml else _template_words(view, book.units))


def _template_words(view: acts.TemplateView, units: Units) -> Iterator[str]:
    yield from template_words(view.template, units, view.expected)
    if view.expected is not None and view.expected.trays:
        grams = range_words(view.expected.low, view.expected.high, units)
        yield f"this room: {grams}, 4 in 5 ({view.expected.rests_on})"
    if view.retired:
        yield "retired"


@templates.command("put")
@click.argument("file", type=FileName(), metavar="PATH")
@SETTINGS_AT
@book_answers("logbook.actions.crops.templates:TemplateWritten")
def put(book: Book, file: Path) -> None:
    """Write a TOML file as a template, or as a new version of the one of that name."""
    done = acts.put_template_file(book, file)
    if done.written:
        _tell_written(done)
    else:
        words = f"{done.template.name} is the same as its version {done.template.version}; nothing was written."
        tell(done, [words])


@templates.command("copy")
@click.argument("name", shell_complete=complete_templates)
@click.argument("new_name")
@click.option(
    "--tray", type=tray_size, metavar="SIZE",
    help="On another tray, like 10x10in: seed and expected weight are scaled to its area.",
)  # fmt: skip
@SETTINGS_AT
@book_answers("logbook.actions.crops.templates:TemplateWritten")
def copy(book: Book, name: str, new_name: str, tray: tuple[float, float] | None) -> None:
    """Copy a template under another name."""
    copied = acts.TemplateWritten(acts.copy_template(book, name, new_name, tray), retired=False)
    _tell_written(copied, sized=tray is not None)


@templates.command("retire")
@click.argument("name", shell_complete=complete_templates)
@click.option("--back", is_flag=True, help="Bring a retired one back into use.")
@SETTINGS_AT
@book_answers("logbook.actions.crops.templates:TemplateWritten")
def retire(book: Book, name: str, back: bool) -> None:
    """Retire a template: it stays in the record and is no longer offered."""
    template = acts.retire_template(book, name, back=back)
    words = f"{template.name} is {'back' if back else 'retired'}."
    tell(acts.TemplateWritten(template, retired=not back), [words])


@templates.command("allergens")
@click.argument("name", default="", shell_complete=complete_templates)
@click.argument("words", nargs=-1)
@SETTINGS_AT
@book_answers("logbook.actions.crops.templates:AllergenList")
def allergens(book: Book, name: str, words: tuple[str, ...]) -> None:
    """Show the allergens of every crop; or set a crop's: allergens "mild mix" mustard."""
    if words:
        acts.say_allergens(book, name, " ".join(words))
    found = acts.list_allergens(book, name)
    tell(found, (f"{each.crop}: {each.words}" for each in found.crops))


def _tell_written(done: acts.TemplateWritten, *, sized: bool = True) -> None:
    template = done.template
    words = [f"{template.name}: version {template.version} is written."]
    words += [f"The tray is {sides_words(template.tray)}."] if sized else []
    tell(done, words)
