"""What a screen, or a question on it, may be about: a tray, a day, a place. The way back keeps it."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Self

from logbook.growing.numbers import numbers_words
from logbook.growing.page_filter import PageFilter
from logbook.handbook import CHAPTERS


@dataclass(frozen=True, slots=True)
class Subject:
    """Nothing in particular; the base of all others."""

    @property
    def about(self) -> str:
        """What a form is about, as its drafts are kept: `Draft.place`; '' for nothing."""
        return ""


@dataclass(frozen=True, slots=True)
class TraySubject(Subject):
    """A tray by its number."""

    number: int


@dataclass(frozen=True, slots=True)
class BatchSubject(Subject):
    """A batch by its name."""

    batch: str


@dataclass(frozen=True, slots=True)
class WeighSubject(Subject):
    """The trays to weigh, none for all that are ready; when they were cut, None for now."""

    trays: tuple[int, ...] = ()
    cut_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class SowSubject(Subject):
    """The crop and the path of the place that a sowing begins with; '' for any."""

    crop: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True)
class PageSubject(Subject):
    """A day, None for today, or words to search for, and what the page is narrowed to."""

    day: date | None = None
    words: str = ""
    only: PageFilter | None = None


@dataclass(frozen=True, slots=True)
class TemplateSubject(Subject):
    """The template to change or to copy; '' for a new one."""

    template: str = ""
    copy: bool = False

    @classmethod
    def of(cls, about: str) -> Self:
        what, _, template = about.partition(" ")
        return cls(template, what == "copy")

    @property
    def about(self) -> str:
        """Like "copy radish"; '' for a new one."""
        return f"{'copy' if self.copy else 'edit'} {self.template}" if self.template else ""


@dataclass(frozen=True, slots=True)
class PlaceSubject(Subject):
    """The path of a place; '' for none or a new one."""

    place: str = ""

    @property
    def about(self) -> str:
        return self.place


@dataclass(frozen=True, slots=True)
class LightSubject(Subject):
    """The path of the shelf to begin at; '' for where one was."""

    place: str = ""


@dataclass(frozen=True, slots=True)
class AirSubject(LightSubject):
    """The path of a place, or the number of a batch whose life is shown instead."""

    batch: int | None = None


@dataclass(frozen=True, slots=True)
class BillsSubject(Subject):
    """A question to ask at once: what it is about (lamps, tariff, circuit), and of which name."""

    kind: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class SeedSubject(Subject):
    """A question to ask at once: its kind (see ui/forms/seed_forms.py), and of which lot."""

    kind: str = ""
    lot: str = ""


@dataclass(frozen=True, slots=True)
class TraceSubject(Subject):
    """What is traced, as `logbook trace` takes it; '' for what is asked for."""

    code: str = ""


SPANS = (4, 8, 13, 26, 52, 104)
"""Weeks of yields and costs to choose from."""


def next_span(weeks: int) -> int:
    """So many weeks come after so many; the shortest after the longest."""
    return SPANS[(SPANS.index(weeks) + 1) % len(SPANS)] if weeks in SPANS else SPANS[0]


@dataclass(frozen=True, slots=True)
class RecallSubject(Subject):
    """What a recall begins at, and when it was begun."""

    code: str
    begun: datetime


@dataclass(frozen=True, slots=True)
class YieldsSubject(Subject):
    """The crop whose batches are shown, '' for all crops; the batch whose trays are, 0 for none.

    How many weeks, and what parts crops; of a `group` of the crop only the trays that are in it count.
    """

    crop: str = ""
    weeks: int = 8
    per: str = ""
    group: str = ""
    batch: int = 0


@dataclass(frozen=True, slots=True)
class CostsSubject(Subject):
    """How many weeks; a rate to ask for at once, where it `asks`."""

    name: str = ""
    weeks: int = 8
    asks: bool = False


@dataclass(frozen=True, slots=True)
class TrialSubject(Subject):
    """A trial by its name."""

    trial: str


@dataclass(frozen=True, slots=True)
class ChapterSubject(Subject):
    """A chapter of the handbook by its name."""

    chapter: str = CHAPTERS[0]


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the cursor is on: trays, a chore in words, a place's path; `to` is a likely move."""

    numbers: tuple[int, ...]
    chore: str = ""
    words: str = ""
    place: str = ""
    crop: str = ""
    sign: str = ""
    to: str = ""

    @property
    def label(self) -> str:
        return f"{numbers_words(self.numbers)} {self.crop}".strip() or self.place
