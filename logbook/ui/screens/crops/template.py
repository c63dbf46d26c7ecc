"""A crop template: a new version of one, a copy of one, or a new one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.crops import templates as acts
from logbook.growing.crops.template_changes import what_changed
from logbook.growing.crops.template_fields import Leaf, from_lines, leaves
from logbook.growing.crops.templates import CropTemplate, Stage, area_words, checked
from logbook.growing.days import day_number, day_words, moment_words
from logbook.growing.measures import Units, hours_words, sides_words
from logbook.growing.trays.forecast import changes_ahead, cut_window
from logbook.text import Refused, clean_name, fold
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.forms.stage_fields import STAGES, stage_fields, stage_from
from logbook.ui.widgets.form_lines import Field, any_text


@dataclass(frozen=True, slots=True)
class TemplateForm:
    """What the form begins with: the template (None for a new one) and the names in use."""

    source: acts.TemplateView | None
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
        return self.about or "new"

    @property
    def editing(self) -> bool:
        """Whether it is a new version of a template that is there."""
        return (self.about or "").startswith("edit ")

    def load(self, book: Book) -> TemplateForm:
        names = tuple(template.name for template in acts.list_templates(book, retired=True))
        name = (self.about or "").partition(" ")[2]
        return TemplateForm(acts.show_template(book, name) if name else None, names)

    def draw(self, view: TemplateForm) -> None:
        source = view.source
        what = "" if self.editing else "copy of "
        name = source and f"{what}{source.template.name}, version {source.template.version}"
        self.counts = name or "new"
        super().draw(view)

    @property
    def _source(self) -> CropTemplate | None:
        return self.view.source.template if self.view and self.view.source else None

    @property
    def _units(self) -> Units:
        return self.book.units if self.logbook.has_book else "metric"

    def fields(self) -> tuple[Field, ...]:
        why = Field("why", "why this version", "what the trays showed", read=any_text)
        return (*self.lines_of(self._source, self._units), why)

    def lines_of(self, source: CropTemplate | None, units: Units) -> list[Field]:
        """A line for each field of a template; weights and lengths in these units."""
        lines: list[Field] = []
        for leaf in leaves(CropTemplate):
            if leaf.name == "stages":
                lines += self._stage_fields(source)
            elif leaf.name == "name":
                told, shown = leaf.told, not self.editing
                hint = told.hint_in(units)
                lines.append(Field("name", told.label, hint, read=self._free, shown=shown))
            else:
                lines.append(self._line(leaf, source, units))
        return lines

    @staticmethod
    def _line(leaf: Leaf, source: CropTemplate | None, units: Units) -> Field:
        """The line of one field; an exact value is kept behind its text until that changes."""
        told = leaf.told
        value = told.begins if source is None else leaf.of(source)
        start = "" if value in (None, "") else told.value.write(value, units)

        def read(text: str) -> Any:
            return value if text == start and start else told.read(text, units)

        return Field(
            leaf.name, told.label, told.hint_in(units), start, read,
            heading=told.heading, note=told.value.lines,
        )  # fmt: skip

    def _stage_fields(self, source: CropTemplate | None) -> list[Field]:
        """The lines of each stage and of one more; emptying a name takes the stage out."""
        typed = {name: each.text for name, each in self.entries.items() if each.changed}
        return stage_fields(source.stages if source else (), typed)

    def _free(self, text: str) -> str | None:
        """Read a name that no other template has; None for nothing."""
        name = clean_name(text, "name") if text.strip() else None
        taken = self.view.names if self.view else ()
        if name and fold(name) in {fold(each) for each in taken}:
            raise Refused(f'There is already a template "{name}"; choose another name.', "name")
        return name

    def template(self, values: Mapping[str, Any]) -> CropTemplate:
        """Put the values together and check them; raise Refused about the line that is wrong."""
        given = [(name, stage_from(values, name)) for name in STAGES]
        places = [name for name, stage in given if stage is not None]
        stages = tuple(stage for _, stage in given if stage is not None) or None
        try:
            made = from_lines(CropTemplate, {**values, "stages": stages})
            if self.editing and self._source is not None:
                return checked(replace(made, name=self._source.name))
            self._free(made.name)
            return checked(made if self._source is None else made.scaled_from(self._source))
        except Refused as refused:
            if refused.about == "stages":
                raise Refused("A template needs a stage; name the first.", STAGES[0]) from refused
            stage, _, part = refused.about.partition("/")
            if stage in STAGES:
                name = places[STAGES.index(stage)]
                lines = part and not isinstance(values[name], Stage)
                about = f"{name}-{part}" if lines else name
                raise Refused(str(refused), about) from refused
            raise

    def preview(self, values: Mapping[str, Any]) -> Preview:
        template, book = self.template(values), self.book
        now, zone, first = book.now(), book.zone, book.about.first_day
        soak = template.soak_seconds
        rows = [(now, f"sow, after a soak of {hours_words(soak / 3600)}" if soak else "sow")]
        rows += [
            (change.at, f"{change.words} (to {template.stages[change.stage].name})")
            for change in changes_ahead(template, 0, now)
        ]
        cut = cut_window(template, 0, now)
        rows += [(cut.start, "cut from"), (cut.best, "cut best"), (cut.by, "cut by")]
        lines = [Content.styled("Sown now, it would be", "bold")]
        whens = [moment_words(at, now, zone) for at, _ in rows]
        width = max(map(len, whens))
        for (at, words), when in zip(rows, whens, strict=True):
            day = day_number(now, at, zone, first)
            lines.append(Content.assemble((f"day {day:<3}", "bold"), f" {when:<{width}}  {words}"))
        view = self.view.source if self.view else None
        if view is None or template.tray != view.template.tray:
            lines.append(Content(f"The tray is {sides_words(template.tray)}."))
        if view is not None:
            dense = area_words(template, view.template, self._units)
            if not self.editing and template.tray_mm2 != view.template.tray_mm2:
                dense = (
                    "Seed and expected weight scale with the tray's area unless you change them."
                )
            lines += [Content.styled(dense, "$warning")] if dense else []
        if template.allergens_doubt:
            lines.append(Content.styled(template.allergens_doubt, "$warning"))
        if view is not None and self.editing:
            if changed := what_changed(view.template, template, self._units):
                lines.append(Content.styled("This version changes", "bold"))
                lines += [Content(line) for line in changed]
            lines.append(Content.styled("Versions", "bold"))
            for note in view.versions:
                made = day_words(note.made_at.astimezone(zone).date(), book.today())
                why = f": {note.why}" if note.why else ""
                lines.append(Content(f"{note.number}  {made}  {note.by}{why}"))
        return Preview(tuple(lines))

    async def write(self, values: Mapping[str, Any]) -> str:
        template = self.template(values)
        source = self._source
        if self.editing and source == replace(template, version=source.version if source else 0):
            raise Refused("Nothing changed, so there is no new version; esc goes back.")
        why = values["why"]
        if not why and not self.editing and source is not None:
            why = f"copied from {source.name} version {source.version}"
        written = await self.write_book(acts.put_template, replace(template, version=0), why)
        return f"{written.name} is version {written.version} now."
