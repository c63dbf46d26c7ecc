"""Setting a trial up: the question, the one thing that differs, its arms, how many trays."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.crops.templates import list_templates
from logbook.actions.room.light import all_light
from logbook.actions.room.places import list_places
from logbook.actions.together import together
from logbook.actions.trays.lots import recent_lots
from logbook.actions.trials.setting_up import TrialDraft, TrialPlan, preview_trial, set_up
from logbook.actions.trials.sowing import SownTrial, SowTrialDraft, sow_trial
from logbook.actions.trials.words import layout_words, set_up_words, sown_words
from logbook.growing.quantities import LAYOUT_NUMBER, REPLICATES, WEEKS
from logbook.growing.trials.criteria import read_weights
from logbook.growing.trials.factors import FACTORS
from logbook.growing.when import parse_when
from logbook.text import Refused, clean, clean_name, clean_note, fold
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.screens.trays.sow import WHICH_CROP
from logbook.ui.subjects import TrialSubject
from logbook.ui.widgets.form_lines import Field

ARMS = tuple(f"arm-{place}" for place in range(1, 9))
BLOCKS = tuple(f"shelf-{place}" for place in range(1, 9))


@dataclass(frozen=True, slots=True)
class TrialOffers:
    """What the form completes: names of templates, shelves with what is said of each, seed lots."""

    templates: tuple[str, ...]
    shelves: Mapping[str, str]
    lots: tuple[str, ...]


class TrialFormScreen(FormScreen):
    """The form of a trial."""

    heading, counts = "a trial", "new"
    purpose = (
        "Set a trial up: one thing differs between its arms, all else is kept alike. Arms of a "
        "trial of lamps are shelves, picked from a list. A time to sow plans soak and sowing."
    )
    kind = "trial_form"
    save_words = "set the trial up"
    view: TrialOffers | None = None
    _made: TrialSubject

    def load(self, book: Book) -> TrialOffers:
        """Read what is completed."""
        light = {one.place.path: one.newest for one in all_light(book)}
        shelves = {}
        for view in list_places(book):
            if view.place.kind == "shelf":
                newest = light.get(view.place.path)
                ppfd = f"   PPFD {newest.even.mean:.0f} µmol/m²/s" if newest is not None else ""
                shelves[view.place.path] = f"{view.free} of {view.place.slots} free{ppfd}"
        names = tuple(template.name for template in list_templates(book))
        return TrialOffers(names, shelves, tuple(recent_lots(book)))

    @property
    def draft_label(self) -> str:
        """Name the trial."""
        return self.entries["name"].text if self.entries else ""

    def _typed(self, name: str) -> str:
        return self.entries[name].text.strip() if name in self.entries else ""

    def fields(self) -> tuple[Field, ...]:
        """What is asked, in the order in which a trial is thought up."""
        view = self.view or TrialOffers((), {}, ())
        lamps = fold(self._typed("factor")) == "lamps"
        return (
            Field("name", "name", "short, like thick or thin", read=lambda text: clean_name(text, "trial's name")),
            Field("crop", "crop", "part of its name", offers=view.templates, pick=True,
                  needed=WHICH_CROP),
            Field("question", "question", "what you want to know", read=clean_note),
            Field("factor", "what differs", "or a free word", offers=tuple(FACTORS), beside=FACTORS,
                  needed="What is the one thing that differs? Like density, soak or medium."),
            *self._lines(ARMS, "arm", view.shelves if lamps else {},
                         "its shelf" if lamps else "like thin=28g"),
            Field("replicates", "trays per arm", "in each block", "4", REPLICATES.read, optional=True, empty=1),
            Field("weeks", "weeks", "in how many it is sown", "1", WEEKS.read, optional=True, empty=0),
            *self._lines(BLOCKS, "block", view.shelves, "a shelf; empty: none", shown=not lamps),
            Field("measures", "measured", "height, days, looks, taste", read=read_parts),
            Field("weights", "what counts", "like yield 3, taste 1; or later", read=read_weights,
                  optional=True, empty={}),
            Field("layout_number", "layout number", "empty: drawn by the book", read=LAYOUT_NUMBER.read,
                  optional=True),
            Field("sow_at", "sow", "empty: later; or Sat 08:00", read=self._when, optional=True),
            Field("lot", "seed lot", "as on the bag", offers=view.lots,
                  shown=bool(self._typed("sow_at"))),
        )  # fmt: skip

    def _lines(
        self, names: Sequence[str], label: str, shelves: Mapping[str, str], hint: str,
        *, shown: bool = True,
    ) -> Iterator[Field]:  # fmt: skip
        """A line for each that is written, and one more; of an arm its shelf may have a name."""
        last = max((at for at, name in enumerate(names) if self._typed(name)), default=-1)
        least = 1 if label == "arm" else 0
        for at, name in enumerate(names):
            pick = bool(shelves) and "=" not in self._typed(name) and ";" not in self._typed(name)
            yield Field(
                name, f"{label} {at + 1}", hint if at <= max(least, last) else "one more",
                offers=tuple(shelves), beside=shelves, pick=pick, shown=shown and at <= max(least, last + 1),
            )  # fmt: skip

    def _when(self, text: str) -> datetime:
        return parse_when(text, self.book.now(), self.book.zone, ahead=True)

    def _draft(self, values: Mapping[str, Any]) -> TrialDraft:
        said = {name: value for name, value in values.items() if name not in _OWN}
        arms, blocks = (
            tuple(part for name in names for part in read_parts(values.get(name, ""), ";"))
            for names in (ARMS, BLOCKS)
        )
        if len(arms) < 2:
            raise Refused(
                "A trial needs two arms or more, like thin=28g and thick=34g.", ARMS[len(arms)]
            )
        return TrialDraft(**said, arms=arms, shelves=blocks)

    def preview(self, values: Mapping[str, Any]) -> Preview:
        """The trays, the differences that can be seen, and one drawing of the layout."""
        number, draft = values["layout_number"], self._draft(values)
        plan = preview_trial(self.book, replace(draft, layout_number=number or 0))
        first, *rest = set_up_words(plan)
        lines = [Content.styled(first, "bold"), *(Content(line) for line in rest)]
        if number is not None:
            lines += [Content(line) for line in layout_words(plan)]
        return Preview(tuple(lines))

    async def write(self, values: Mapping[str, Any]) -> str:
        """Set the trial up, and plan its first sowing where a time is given, in one act."""
        at, lot = values["sow_at"], values.get("lot", "")
        made, sown = await self.write_book(_set_up_and_sow, self._draft(values), at, lot)
        self._made = TrialSubject(made.asked.name)
        set_words = f"{made.asked.name} is set up (layout number {made.layout_number})."
        if sown is None:
            return f"{set_words} {self.keyed('{sow_arms} sows it.')}"
        return "  ".join([set_words, "; ".join(map(str.strip, sown_words(sown))), *sown.notices])

    async def after_saving(self, words: str) -> None:
        await super().after_saving(words)
        self.logbook.go(self._made)
        self.app.call_later(self._say_there, words)


_OWN = {*ARMS, *BLOCKS, "sow_at", "lot"}
"""The lines that make no part of a draft by their own name."""


def _set_up_and_sow(
    book: Book, draft: TrialDraft, at: datetime | None, lot: str
) -> tuple[TrialPlan, SownTrial | None]:
    if at is None:
        return set_up(book, draft), None
    with together(book) as joined:
        made = set_up(joined, draft)
        return made, sow_trial(joined, made.asked.name, SowTrialDraft(at=at, lot=lot, soaked=None))


def read_parts(text: str, mark: str = "") -> tuple[str, ...]:
    """Cut "thin=28g; thick=34g" into its parts: at ; where there is one, else at commas."""
    words = clean(text, lines=False)
    mark = mark or (";" if ";" in words else ",")
    return tuple(part.strip() for part in words.split(mark) if part.strip())
