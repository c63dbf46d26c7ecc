"""Sowing: which crop, how many trays, where and when; what it comes to stands below."""

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.crops.templates import list_templates
from logbook.actions.room.places import free_words, list_places
from logbook.actions.trays.lots import recent_lots
from logbook.actions.trays.sow_words import plan_words, soak_question, standing_words
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.growing.cautions import words_of
from logbook.growing.crops.seed_lots import lots_from
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.growing.quantities import SEED, TRAYS
from logbook.growing.trays.soaking import Soaked, read_soaked
from logbook.growing.when import parse_when
from logbook.text import Refused, clean, clean_name, clean_note
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.subjects import SowSubject
from logbook.ui.widgets.form_lines import Field

WHICH_CROP = "Which crop? Type part of its name."


@dataclass(frozen=True, slots=True)
class Offers:
    """What the form completes: names of templates, paths of places, seed lots of late."""

    templates: tuple[str, ...]
    places: Mapping[str, str]
    """With how many of their slots are free."""
    lots: tuple[str, ...]


class SowScreen(FormScreen):
    """The form of a sowing, done or planned."""

    heading = "sow"
    purpose = (
        "Sow a batch now, write one that was sown before, or plan one: a time ahead puts soak "
        "and sow on the round of their day. Part of a name is enough; the right arrow or Enter "
        "completes it."
    )
    kind = "sow"
    save_words = "sow, or plan"
    subject: SowSubject = SowSubject()
    view: Offers | None = None

    def __init__(self) -> None:
        super().__init__()
        self.given = {"template": "", "place": ""}

    def on_screen_resume(self) -> None:
        """Take the crop and the place that one came from, once."""
        came, self.subject = self.subject, SowSubject()
        for name, given in (("template", came.crop), ("place", came.place)):
            if given or not self.unsaved:
                self.given[name] = given
                self.entries[name].line.begin(given)
                self.entries[name].start = given

    @property
    def draft_label(self) -> str:
        return "a batch"

    def load(self, book: Book) -> Offers:
        return Offers(
            tuple(template.name for template in list_templates(book)),
            free_words(list_places(book)),
            tuple(recent_lots(book)),
        )

    def fields(self) -> tuple[Field, ...]:
        view = self.view or Offers((), {}, ())
        return (
            Field("template", "crop", "part of its name", self.given["template"],
                  offers=view.templates, pick=True, needed=WHICH_CROP),
            Field("trays", "trays", "how many", read=TRAYS.read, optional=True),
            Field("at", "when", "empty: now; or tomorrow 18:00", read=self._when, optional=True),
            Field("ready", "ready by", "like Fri 06:00: counted back", read=self._when, optional=True),
            Field("place", "place", "empty: where there is room", start=self.given["place"],
                  offers=tuple(view.places), beside=view.places, pick=True),
            Field("numbers", "numbers", "as on the tape", read=parse_numbers, optional=True,
                  empty=()),
            Field("lot", "seed lot", "as on the bag", read=self._lot, offers=view.lots, optional=True,
                  empty=""),
            Field("grams", "seed per tray", optional=True,
                  read=lambda text: SEED.read(text, self.book.units)),
            Field("soaked", "soaked since", "a time, dry, or now",
                  read=self._soaked, optional=True),
            Field("colours", "colour mark", "like red; or one each: red, blue", read=_colours),
            Field("note", "note", "your own words", read=clean_note, note=True),
        )  # fmt: skip

    def _when(self, text: str) -> datetime:
        book = self.book
        return parse_when(text, book.now(), book.zone, ahead=True)

    def _lot(self, text: str) -> str:
        lots_from(text, self.book.units)
        return clean(text, lines=False)

    def _soaked(self, text: str) -> Soaked:
        book = self.book
        return read_soaked(text, book.now(), book.zone)

    def _draft(self, values: Mapping[str, Any]) -> Any:
        if values["trays"] is None and not values["numbers"]:
            raise Refused("How many trays?", about="trays")
        return SowDraft(**values)

    def preview(self, values: Mapping[str, Any]) -> Preview:
        book = self.book
        plan = preview(book, self._draft(values))
        lines = [Content.styled(notice, "bold $warning") for notice in plan.notices]
        first, *rest = plan_words(plan, book)
        if plan.planned:
            first += ", planned"
        lines.append(Content.styled(first, "bold"))
        lines += [Content(words) for words in (*standing_words(plan), *rest)]
        if any(each.cover == "weight" for each in plan.template.stages):
            lines += [Content.styled(words, "$text-past") for words in words_of("lifting stacks")]
        seed = plan.template.seed_grams
        hints = {"numbers": f"{numbers_words(plan.numbers)}, or as on the tape"}
        if seed is not None:
            hints["grams"] = self.grams(seed, " by the template")
        return Preview(tuple(lines), hints)

    async def write(self, values: Mapping[str, Any]) -> str:
        draft = self._draft(values)
        ahead = await asyncio.to_thread(preview, self.book, draft)
        if ahead.asks_soak:
            asked = soak_question(ahead.template.soak_seconds, ahead.sow_at, self.book)
            raise Refused(asked, about="soaked")
        sown = await self.write_book(sow, draft)
        plan = sown.plan
        done = "planned" if plan.planned else "sown"
        if plan.planned and draft.soaked not in (None, "dry"):
            done += f", in water since {self.moment(plan.soak_at)}"
        where = "; ".join(standing_words(plan)) or numbers_words(plan.numbers)
        self.given = dict.fromkeys(self.given, "")
        return " ".join(
            [f"Batch {sown.batch_id} {done}: {plan.template.label()}, {where}.", *plan.notices]
        )


def _colours(text: str) -> tuple[str, ...]:
    return tuple(clean_name(each, "colour mark") for each in text.split(",") if each.strip())
