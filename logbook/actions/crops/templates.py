"""Crop templates: looking, putting a new version, copying, retiring."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.growing.crops.allergens import allergens_read, law_words
from logbook.growing.crops.crop_names import other_names
from logbook.growing.crops.template_fields import to_columns
from logbook.growing.crops.template_text import template_from
from logbook.growing.crops.templates import CropTemplate, checked
from logbook.growing.crops.unsafe import refuse_unsafe
from logbook.growing.crops.yields import Expected
from logbook.store.reads.templates import (
    StoredTemplate,
    VersionNote,
    read_templates,
    read_version_notes,
)
from logbook.store.writer import Writer
from logbook.text import Refused, clean_name, clean_words, fold, listed, nearest
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class TemplateView:
    """A template with its versions and what this room's trays say of its weight."""

    keys: ClassVar = """
        *template retired room_expects_grams=expected.grams
        room_spread_grams=expected.spread_grams room_low_grams=expected.low
        room_high_grams=expected.high rests_on_trays=expected.trays
        rests_on_batches=expected.batches versions
    """

    template: CropTemplate
    retired: bool
    versions: tuple[VersionNote, ...]
    expected: Expected | None


@dataclass(frozen=True, slots=True)
class TemplateWritten:
    """A template as it is now."""

    keys: ClassVar = "*template retired written"

    template: CropTemplate
    retired: bool
    written: bool = True
    """Whether there is a new version; none of what was the same already."""


def list_templates(book: Book, *, retired: bool = False) -> list[CropTemplate]:
    """The newest versions, by name; retired ones only when asked."""
    with book.reading() as reading:
        return [each.template for each in read_templates(reading) if retired or not each.retired]


def all_templates(book: Book) -> list[TemplateView]:
    """Every template's newest version by name, the retired ones last."""
    with book.reading() as reading:
        return _views(reading, sorted(read_templates(reading), key=lambda each: each.retired))


def _views(reading: Reading, stored: Sequence[StoredTemplate]) -> list[TemplateView]:
    expected = reading.expected([each.version_id for each in stored])
    return [
        TemplateView(
            each.template,
            each.retired,
            tuple(read_version_notes(reading, each.id)),
            expected[each.version_id],
        )
        for each in stored
    ]


def find_template(name: str, templates: list[StoredTemplate]) -> StoredTemplate:
    """The standing template of a name, a crop, or a beginning or a word that only one has; else Refused.

    A crop's other names are understood where no template has what was typed.
    """
    wanted, others = fold(name), other_names(name)
    standing = [each for each in templates if not each.retired]
    for exact in (
        [each for each in standing if fold(each.template.name) == wanted],
        [each for each in standing if fold(each.template.label()) == wanted],
        [each for each in standing if wanted and fold(each.template.name).startswith(wanted)],
        [each for each in standing if fold(each.template.name) in others],
        [each for each in standing if fold(each.template.crop) in others],
        [each for each in standing if wanted in fold(each.template.name).replace(",", "").split()],
        [each for each in standing if wanted and fold(each.template.variety) == wanted],
    ):
        if len(exact) == 1:
            return exact[0]
        if exact:
            names = listed([each.template.name for each in exact], joint="or")
            raise Refused(f'"{name[:40]}" matches several templates: {names}. Type which one.')
    if any(fold(each.template.name) == wanted for each in templates):
        raise Refused(
            f'The template "{name[:40]}" is retired; {Way.TEMPLATE_BACK} with its name brings '
            "it back."
        )
    refuse_unsafe(name)
    names_known = [each.template.name for each in standing]
    raise Refused(
        f'There is no crop template "{name[:60]}".{nearest(name, names_known)} '
        f"{Way.TEMPLATES} lists them."
    )


def show_template(book: Book, name: str) -> TemplateView:
    """One template by name, retired or not."""
    with book.reading() as reading:
        stored = read_templates(reading)
        named = (each for each in stored if fold(each.template.name) == fold(name))
        retired = next((each for each in named if each.retired), None)
        return _views(reading, [retired or find_template(name, stored)])[0]


def write_version(
    writer: Writer, template: CropTemplate, *, by: str, now: datetime, why: str,
    retired: bool = False,
) -> tuple[int, CropTemplate]:  # fmt: skip
    """Write a template as a new version under its name; returns the version's id, the template."""
    key = fold(template.name)
    newest = (
        "SELECT t.id, max(v.number) FROM template t JOIN template_version v ON v.template_id = "
        "t.id "
        "WHERE t.name_key = ? GROUP BY t.id"
    )
    found = writer.row(newest, (key,))
    known = found or (writer.add("template", name=template.name, name_key=key), 0)
    writer.change("template", known[0], retired=retired)
    version_id = writer.add(
        "template_version", template_id=known[0], number=known[1] + 1, made_at=now, by=by,
        why=why, **to_columns(template),
    )  # fmt: skip
    of = {"version_id": version_id}
    stages = enumerate(template.stages)
    writer.put("stage", ({**of, "position": at, **to_columns(each)} for at, each in stages))
    if not template.targets.empty:
        writer.put("template_target", [of | to_columns(template.targets)])
    return version_id, replace(template, version=known[1] + 1)


def put_template(book: Book, template: CropTemplate, why: str = "") -> CropTemplate:
    """Write a new template, or a new version where there is one of that name; returns it."""
    checked(template)
    why = clean_words(why, "reason", 200)
    with book.writing() as act:
        written = write_version(act.writer, template, by=book.by, now=act.done_now, why=why)[1]
        act.settings(f"template {written.name}, version {written.version}")
        return written


def put_template_file(book: Book, path: Path) -> TemplateWritten:
    """Read a TOML file and write it as a template, unless the newest version is the same.

    Raises Refused with what is wrong in it.
    """
    template = template_from(read_toml(path), book.units)
    with book.reading() as reading:
        for each in read_templates(reading):
            known = each.template
            if (
                not each.retired
                and known == replace(template, name=known.name, version=known.version)
                and fold(known.name) == fold(template.name)
            ):
                return TemplateWritten(known, retired=False, written=False)
    return TemplateWritten(put_template(book, template, f"from {path.name}"), retired=False)


@dataclass(frozen=True, slots=True)
class CropAllergens:
    """What buyers must be told of a crop, by our names; null where it is not known."""

    crop: str
    allergens: tuple[str, ...] | None
    words: str


@dataclass(frozen=True, slots=True)
class AllergenList:
    """The allergens of crops."""

    crops: tuple[CropAllergens, ...]


def list_allergens(book: Book, name: str = "") -> AllergenList:
    """The allergens of every crop in use, or of one, with the laws that have them named."""
    with book.reading() as reading:
        stored = read_templates(reading)
        shown = (
            [find_template(name, stored)] if name else [each for each in stored if not each.retired]
        )
    found = []
    for each in (one.template for one in shown):
        known = each.allergens_known
        said = "" if known is None else law_words(known)
        words = "; ".join(filter(None, (said, each.allergens_doubt)))
        found.append(CropAllergens(each.name, known, words))
    return AllergenList(tuple(found))


def say_allergens(book: Book, name: str, words: str) -> CropTemplate:
    """Write a new version of a template that says its allergens, or none; returns it."""
    template = show_template(book, name).template
    said = allergens_read(words)
    return put_template(book, replace(template, allergens=said, version=0), f"allergens: {said}")


def read_toml(path: Path) -> dict[str, Any]:
    """What a TOML file says; raises Refused when it cannot be read."""
    try:
        if path.stat().st_size > 1_000_000:
            raise Refused(f"{path} is larger than any template; is it the right file?")
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError as fault:
        raise Refused(f"There is no file {path}.") from fault
    except OSError as fault:
        raise Refused(f"{path} cannot be read: {fault.strerror}.") from fault
    except UnicodeDecodeError as fault:
        raise Refused(f"{path} isn't UTF-8 text.") from fault
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
        raise Refused(f"{path} isn't TOML: {fault}.") from fault


def copy_template(
    book: Book, name: str, new_name: str, tray: tuple[float, float] | None = None
) -> CropTemplate:
    """Write a template's newest version under another name, scaled to a tray (mm) if given."""
    source = show_template(book, name).template
    with book.reading() as reading:
        known = {fold(each.template.name) for each in read_templates(reading)}
    if fold(new_name) in known:
        raise Refused(f'There is already a template "{new_name[:60]}"; choose another name.')
    fresh = replace(source, name=clean_name(new_name), version=0, tray=tray or source.tray)
    fresh = fresh.scaled_from(source)
    return put_template(book, fresh, f"copied from {source.name} version {source.version}")


def retire_template(book: Book, name: str, *, back: bool = False) -> CropTemplate:
    """Retire a template, so that it is no longer offered for sowing; or take it back."""
    template = show_template(book, name).template
    if back:
        refuse_unsafe(template.crop, template.name)
    with book.writing() as act:
        stored = read_templates(act.reading)
        found = next(each.id for each in stored if each.template.name == template.name)
        act.change("template", found, retired=not back)
        act.settings(f"template {template.name} {'back in use' if back else 'retired'}")
    return template
