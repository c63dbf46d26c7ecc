"""Setting a trial up: the question, the one thing that differs, its arms, how many trays."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.crops.templates import list_templates
from logbook.actions.room.places import list_places
from logbook.actions.trials.setting_up import TrialDraft, preview_trial, set_up
from logbook.actions.trials.words import layout_words, set_up_words
from logbook.growing.quantities import LAYOUT_NUMBER, REPLICATES, WEEKS
from logbook.growing.trials.criteria import read_weights
from logbook.growing.trials.factors import FACTORS
from logbook.text import Refused, clean, clean_name, clean_note
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.screens.trays.sow import WHICH_CROP
from logbook.ui.subjects import TrialSubject
from logbook.ui.widgets.form_lines import Field


@dataclass(frozen=True, slots=True)
class TrialOffers:
    """What the form completes: names of templates, paths of shelves."""

    templates: tuple[str, ...]
    shelves: tuple[str, ...]


class TrialFormScreen(FormScreen):
    """The form of a trial."""

    heading, counts = "a trial", "new"
    purpose = (
        "Set a trial up: one thing differs between its arms, all else is kept alike. Below is "
        "how many trays per arm show which difference; the layout is drawn at random from the layout "
        "number that is kept. Sowing comes after, from the trial's page."
    )
    kind = "trial_form"
    save_words = "set the trial up"
    view: TrialOffers | None = None
    _made: TrialSubject

    def load(self, book: Book) -> TrialOffers:
        """Read what is completed."""
        return TrialOffers(
            tuple(template.name for template in list_templates(book)),
            tuple(view.place.path for view in list_places(book) if view.place.kind == "shelf"),
        )

    @property
    def draft_label(self) -> str:
        """Name the trial."""
        return self.entries["name"].text if self.entries else ""

    def fields(self) -> tuple[Field, ...]:
        """What is asked, in the order in which a trial is thought up."""
        view = self.view or TrialOffers((), ())
        return (
            Field("name", "name", "short, like thick or thin", read=lambda text: clean_name(text, "trial's name")),
            Field("crop", "crop", "a part of its name", offers=view.templates, pick=True,
                  needed=WHICH_CROP),
            Field("question", "question", "what you want to know", read=clean_note),
            Field("factor", "what differs", "or a free word", offers=tuple(FACTORS),
                  needed="What is the one thing that differs? Like density, soak or medium."),
            Field("arms", "arms", "thin=28g; thick=34g", read=_arms),
            Field("replicates", "trays an arm", "in each block", "4", REPLICATES.read, optional=True, empty=1),
            Field("weeks", "weeks", "in how many it is sown", "1", WEEKS.read, optional=True, empty=0),
            Field("shelves", "shelves", "as blocks: 2 or more, commas between",
                  read=read_parts),
            Field("measures", "measured", "besides grams: height, days, looks, taste", read=read_parts),
            Field("weights", "what counts", "like yield 3, taste 1; or later", read=read_weights,
                  optional=True, empty={}),
            Field("layout_number", "layout number", "empty: drawn by the book", read=LAYOUT_NUMBER.read,
                  optional=True),
        )  # fmt: skip

    def preview(self, values: Mapping[str, Any]) -> Preview:
        """The trays, the differences that can be seen, and one drawing of the layout."""
        number = values["layout_number"]
        plan = preview_trial(self.book, TrialDraft(**{**values, "layout_number": number or 0}))
        first, *rest = set_up_words(plan)
        lines = [Content.styled(first, "bold"), *(Content(line) for line in rest)]
        if number is not None:
            lines += [Content(line) for line in layout_words(plan)]
        return Preview(tuple(lines))

    async def write(self, values: Mapping[str, Any]) -> str:
        """Set the trial up."""
        made = await self.write_book(set_up, TrialDraft(**values))
        self._made = TrialSubject(made.asked.name)
        sows = self.keyed("{sow_arms} sows it.")
        return f"{made.asked.name} is set up (layout number {made.layout_number}). {sows}"

    async def after_saving(self, words: str) -> None:
        await super().after_saving(words)
        self.logbook.go(self._made)
        self.app.call_later(self._say_there, words)


def _arms(text: str) -> tuple[str, ...]:
    parts = read_parts(text)
    if len(parts) < 2:
        raise Refused("A trial needs two arms or more, like thin=28g; thick=34g.")
    return parts


def read_parts(text: str) -> tuple[str, ...]:
    """Cut "thin=28g; thick=34g" into its parts: at ; where there is one, else at commas."""
    words = clean(text, lines=False)
    mark = ";" if ";" in words else ","
    return tuple(part.strip() for part in words.split(mark) if part.strip())
