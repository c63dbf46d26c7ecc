"""A crop template: a new version of one, a copy of one, or a new one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.templates import TemplateView
from logbook.growing.days import day_number, day_words, moment_words
from logbook.growing.forecast import changes_ahead, cut_window
from logbook.growing.measures import (
    Units,
    grams,
    grams_words,
    number,
    number_words,
    seconds,
    span_words,
)
from logbook.growing.quantities import tray_size
from logbook.growing.stage_line import EXAMPLE, LABELS, parse_stage, stage_line
from logbook.growing.target_text import (
    KEYS,
    target_texts,
    targets_from,
    wishes_apart,
    wishes_together,
)
from logbook.growing.targets import Targets
from logbook.growing.templates import (
    MOST_STAGES,
    TRAY_MM,
    CropTemplate,
    CutWindow,
    Stage,
    checked,
)
from logbook.text import Refused, clean_name, clean_note, fold
from logbook.ui.form import FormScreen, Preview
from logbook.ui.look_form import yes_no
from logbook.ui.widgets.form_lines import Field, any_text

DAY = 86_400
STAGES = tuple(f"stage {place}" for place in range(1, MOST_STAGES + 1))


@dataclass(frozen=True, slots=True)
class TemplateForm:
    """What the form begins with: the template (None for a new one) and the names in use."""

    source: TemplateView | None
    names: tuple[str, ...]


class TemplateScreen(FormScreen):
    """The form of a crop template."""

    heading = "crop template"
    purpose = (
        "Change how a crop is grown here. Saving makes a new version; batches keep the version "
        "that they were sown with."
    )
    kind = "template"
    save_words = "as a new version"
    view: TemplateForm | None = None

    @property
    def draft_label(self) -> str:
        """Name the template."""
        return self.about or "new"

    @property
    def editing(self) -> bool:
        """Whether it is a new version of a template that is there."""
        return (self.about or "").startswith("edit ")

    def load(self, book: Book) -> TemplateForm:
        """Read the template and the names in use."""
        from logbook.actions.templates import list_templates, show_template

        names = tuple(template.name for template in list_templates(book, retired=True))
        name = (self.about or "").partition(" ")[2]
        return TemplateForm(show_template(book, name) if name else None, names)

    def draw(self, view: TemplateForm) -> None:
        """Name the template in the head."""
        source = view.source
        if source is None:
            self.counts = "new"
        else:
            words = f"{source.template.name}, version {source.template.version}"
            self.counts = words if self.editing else f"copy of {words}"
        super().draw(view)

    @property
    def _source(self) -> CropTemplate | None:
        return self.view.source.template if self.view and self.view.source else None

    @property
    def _units(self) -> Units:
        return self.book.units if self.logbook.has_book else "metric"

    def fields(self) -> tuple[Field, ...]:
        """The lines; weights and lengths in the book's units."""
        source, units = self._source, self._units
        bare = "g" if units == "metric" else "oz"
        side = "cm" if units == "metric" else "in"
        seed = _weight(source.seed_grams if source else None, units)
        expected = _weight(source.expected_grams if source else None, units)
        length, width = (source.tray_length_mm, source.tray_width_mm) if source else TRAY_MM
        size = _size_words(length, width, units)
        soak = source.soak_seconds if source else 0
        ph = source.soak_ph if source else None
        spread = source.spread_percent if source else 20.0
        cut = source.cut if source else None

        def text(name: str) -> str:
            return str(getattr(source, name)) if source else ""

        def flag(name: str, default: bool) -> str:
            return "y" if (getattr(source, name) if source else default) else "n"

        return (
            Field("name", "name", "empty: crop, variety", read=self._read_name, shown=not self.editing),
            Field("crop", "crop", "like radish", text("crop"), lambda t: clean_name(t, "crop")),
            Field("variety", "variety", "may stay empty", text("variety"), _line("variety")),
            Field("seed", "seed a tray", f"dry, {bare}", seed,
                  _exact(seed, source and source.seed_grams,
                         _maybe(lambda t: grams(t, "seed per tray", units)))),
            Field("tray", "tray size", f"length × width, {side}", size,
                  _exact(size, (length, width), lambda t: tray_size(t, units))),
            Field("soak", "soak", "like 8h; 0h for none", span_words(soak),
                  lambda t: seconds(t, "soak") if t.strip() else 0),
            Field("soak_ph", "pH of soak water", "may stay empty", _plain(ph),
                  _exact(_plain(ph), ph, _maybe(lambda t: number(t, "pH of the soak water")))),
            Field("mucilage", "mucilage", "y: the seed is not soaked", flag("mucilage", False),
                  lambda t: bool(yes_no(t, "Mucilage"))),
            Field("medium", "medium", "like coir", text("medium"), _line("medium")),
            *self._stage_fields(source),
            Field("cut", "cut from", "after the last stage began", _span(cut.from_seconds if cut else None),
                  _maybe(lambda t: seconds(t, "cut from"))),
            Field("best", "cut best", "like 60h", _span(cut.best_seconds if cut else None), _best),
            Field("by", "cut by", "like 4d", _span(cut.by_seconds if cut else None),
                  _maybe(lambda t: seconds(t, "cut by"))),
            Field("sign", "sign to cut", "like first true leaves", text("sign_to_cut"),
                  _line("sign to cut")),
            Field("expected", "expected a tray", f"cut weight, {bare}", expected,
                  _exact(expected, source and source.expected_grams,
                         _maybe(lambda t: grams(t, "expected weight per tray", units)))),
            Field("spread", "spread ±", "% of the expected", _plain(spread),
                  _exact(_plain(spread), spread, _spread)),
            Field("guess", "still a guess", "y until your own trays say so", flag("guess", True),
                  lambda t: bool(yes_no(t, "Still a guess"))),
            *self._target_fields(source),
            Field("notes", "notes", "own words", text("notes"), clean_note, note=True),
            Field("why", "why this version", "what the trays showed", read=any_text),
        )  # fmt: skip

    def _stage_fields(self, source: CropTemplate | None) -> tuple[Field, ...]:
        """A line for each stage and one more; emptying one takes the stage out."""
        stages = source.stages if source else ()
        last = len(stages)
        for place, name in enumerate(STAGES, 1):
            entry = self.entries.get(_id(name))
            if entry is not None and entry.text.strip():
                last = max(last, place)
        return tuple(
            Field(
                _id(name),
                name,
                "" if place <= len(stages) else "one more",
                stage_line(stages[place - 1]) if place <= len(stages) else "",
                _stage,
                heading=LABELS if place == 1 else "",
                shown=place <= last + 1,
            )
            for place, name in enumerate(STAGES, 1)
        )

    def _target_fields(self, source: CropTemplate | None) -> tuple[Field, ...]:
        """A line for each thing that the crop may want of light, air and water."""
        units = self._units
        targets = source.targets if source else Targets()
        starts, values = target_texts(targets, units), wishes_apart(targets)
        degrees, volume = (
            ("18-24 C", "200-400 ml") if units == "metric" else ("64-75 F", "7-14 floz")
        )
        lines = {
            "light": ("daily light", "mol/m² a day, like 8-12"),
            "lit_hours": ("lit hours", "a day, like 16"),
            "temperature": ("temperature", f"like {degrees}"),
            "humidity": ("humidity", "like 40-65 %, or at most 65"),
            "ph": ("water pH", "like 5.5-6.5"),
            "ec": ("water EC", "mS/cm, like 0.8-1.6"),
            "water": ("water a tray", f"at a watering, like {volume}"),
        }
        return tuple(
            Field(
                _want(key),
                *lines[key],
                starts[key],
                _exact(starts[key], values[key], _wish(key, units)),
                heading="what the crop wants; each may stay empty" if key == KEYS[0] else "",
            )
            for key in KEYS
        )

    def _read_name(self, text: str) -> str:
        name = clean_name(text, "name") if text.strip() else ""
        taken = self.view.names if self.view else ()
        if name and fold(name) in {fold(each) for each in taken}:
            raise Refused(f'There is already a template "{name}"; give another name.')
        return name

    def template(self, values: Mapping[str, Any]) -> CropTemplate:
        """Put the values together and check them; raise Refused about the line that is wrong."""
        lines = [name for name in map(_id, STAGES) if values.get(name) is not None]
        stages = tuple(values[name] for name in lines)
        if not stages:
            raise Refused(f"A template needs a stage, like {EXAMPLE}.", about=_id(STAGES[0]))
        crop, variety = values["crop"], values["variety"]
        source = self._source
        name = values.get("name") or (f"{crop}, {variety}" if variety else crop)
        if self.editing and source is not None:
            name = source.name
        best, first, end = values["best"], values["cut"], values["by"]
        made = CropTemplate(
            name=name if self.editing else self._free_name(name),
            crop=crop,
            variety=variety,
            stages=stages,
            cut=CutWindow(
                max(0, best - DAY) if first is None else first,
                best,
                best + DAY if end is None else end,
            ),
            seed_grams=values["seed"],
            tray_length_mm=values["tray"][0],
            tray_width_mm=values["tray"][1],
            soak_seconds=values["soak"],
            soak_ph=values["soak_ph"],
            medium=values["medium"],
            sign_to_cut=values["sign"],
            expected_grams=values["expected"],
            spread_percent=values["spread"],
            mucilage=values["mucilage"],
            guess=values["guess"],
            notes=values["notes"],
            targets=wishes_together({key: values[_want(key)] for key in KEYS}),
        )
        try:
            return checked(made)
        except Refused as refused:
            if refused.about in STAGES:
                place = STAGES.index(refused.about)
                raise Refused(str(refused), lines[place]) from refused
            raise

    def _free_name(self, name: str) -> str:
        try:
            return self._read_name(name)
        except Refused as refused:
            raise Refused(str(refused), "name") from refused

    def preview(self, values: Mapping[str, Any]) -> Preview:
        """The plan of a sowing now, and the versions so far."""
        template, book = self.template(values), self.book
        now, zone, first = book.now(), book.zone, book.about.first_day
        rows = [(now, "sow")]
        if template.soak_seconds:
            rows[0] = (now, f"sow, after a soak of {span_words(template.soak_seconds)}")
        rows += [
            (change.at, f"{change.words} (to {template.stages[change.stage].name})")
            for change in changes_ahead(template, 0, now)
        ]
        cut = cut_window(template, 0, now)
        rows += [(cut.start, "cut from"), (cut.best, "cut best"), (cut.by, "cut by")]
        lines = [Content.styled("Sown now it would be", "bold")]
        whens = [moment_words(at, now, zone) for at, _ in rows]
        width = max(map(len, whens))
        for (at, words), when in zip(rows, whens, strict=True):
            day = day_number(now, at, zone, first)
            lines.append(Content.assemble((f"day {day:<3}", "bold"), f" {when:<{width}}  {words}"))
        view = self.view.source if self.view else None
        if view is not None and self.editing:
            lines.append(Content.styled("Versions", "bold"))
            for note in view.versions:
                made = day_words(note.made_at.astimezone(zone).date(), book.today())
                why = f": {note.why}" if note.why else ""
                lines.append(Content(f"{note.number}  {made}  {note.by}{why}"))
        return Preview(tuple(lines))

    async def write(self, values: Mapping[str, Any]) -> str:
        """Write the template as a new version under its name."""
        from logbook.actions.templates import put_template

        template = self.template(values)
        source = self._source
        if self.editing and source == replace(template, version=source.version if source else 0):
            raise Refused("Nothing is changed, so there is no new version; esc goes back.")
        why = values["why"]
        if not why and not self.editing and source is not None:
            why = f"copied from {source.name} version {source.version}"
        written = await self.write_book(put_template, replace(template, version=0), why)
        return f"{written.name} is version {written.version} now."


def _id(name: str) -> str:
    return name.replace(" ", "-")


def _want(key: str) -> str:
    return f"want_{key}"


def _wish(key: str, units: Units) -> Callable[[str], Targets]:
    return lambda text: targets_from({key: text}, units)


def _stage(text: str) -> Stage | None:
    return parse_stage(text) if text.strip() else None


def _line(what: str) -> Callable[[str], str]:
    return lambda text: clean_name(text, what) if text.strip() else ""


def _maybe(read: Callable[[str], Any]) -> Callable[[str], Any]:
    """Let a line stay empty, which gives None."""
    return lambda text: read(text) if text.strip() else None


def _exact(start: str, value: Any, read: Callable[[str], Any]) -> Callable[[str], Any]:
    """Keep the exact value behind a rounded text as long as the text is not changed."""
    return lambda text: value if text == start and start else read(text)


def _best(text: str) -> int:
    if not text.strip():
        raise Refused("How long after the last stage began is it best to cut? Like 60h.")
    return seconds(text, "cut best")


def _spread(text: str) -> float:
    return number(text.replace("%", ""), "spread") if text.strip() else 20.0


def _weight(value: float | None, units: Units) -> str:
    return "" if value is None else grams_words(value, units)


def _span(value: int | None) -> str:
    return "" if value is None else span_words(value)


def _plain(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _size_words(length: float, width: float, units: Units) -> str:
    per, unit = (10, "cm") if units == "metric" else (25.4, "in")
    return f"{number_words(length / per, 2)} x {number_words(width / per, 2)} {unit}"
