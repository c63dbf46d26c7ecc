"""Every screen, declared once: the keys that lead to it, "go to", palette and help derive from it.

A screen's class stands in the file of its name and is called by that name: trial_form is the
TrialFormScreen of trial_form.py. It is imported when it is first shown.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module
from typing import Any

from logbook.ui import subjects
from logbook.ui.command import Command
from logbook.ui.subjects import Subject


@dataclass(frozen=True, slots=True)
class Declared:
    """A screen. With a key it can be reached from everywhere, with a letter alone by "go to" and palette.

    With neither only from other screens.
    """

    noun: str
    """The folder that its file is in."""
    name: str
    about: type[Subject] = Subject
    key: str = ""
    words: str = ""
    """What the footer calls it."""
    tip: str = ""
    """What help and palette say of it."""
    also: tuple[str, ...] = ()
    """Further keys."""
    letter: str = ""
    """Its letter in the list of "go to"; that of its key, where nothing else is given."""
    daily: bool = False
    """Whether most days ask for it, so that it is loaded ahead."""
    bookless: bool = False
    """Whether it can be shown while there is no book yet."""

    @property
    def goes(self) -> str:
        """Its letter in the list of "go to"; '' where it is not in it."""
        return self.letter or self.key

    @property
    def command(self) -> Command | None:
        if not self.key:
            return None
        return Command(
            self.name, self.key, self.words, self.tip, self.also,
            everywhere=True, action=f"show('{self.name}')",
        )  # fmt: skip

    @property
    def screen(self) -> type[Any]:
        """Its class; imports its file."""
        module = import_module(f"{__name__}.{self.noun}.{self.name}")
        found: type[Any] = getattr(module, f"{self.name.title().replace('_', '')}Screen")
        return found

    def make(self) -> Any:
        return self.screen()


_ALL = (
    Declared("trays", "round", key="f2", words="round",
             tip="The round: what every tray needs, as you walk.", also=("r",), letter="r"),
    Declared("trays", "racks", key="f3", words="racks",
             tip="The racks with the trays in their slots.", letter="k", daily=True),
    Declared("trays", "due", key="f4", words="due", tip="What is ready to cut, now and soon.",
             letter="d", daily=True),
    Declared("trays", "page", subjects.PageSubject, "f5", "page", "A day's entries.", letter="p",
             daily=True),
    Declared("trays", "sow", subjects.SowSubject, "n", "sow", "Sow a new batch, or plan one.",
             ("f6",)),
    Declared("trays", "weigh", subjects.WeighSubject, "w", "weigh",
             "Weigh the cut: tray number, grams, Enter.", ("f7",)),
    Declared("trays", "sheet", key="B", words="from paper",
             tip="What came back on a printed round: enter it all at once."),
    Declared("crops", "templates", key="f8", words="templates", tip="Crop templates.", letter="t",
             daily=True),
    Declared("seed", "seed", subjects.SeedSubject, "L", "seed",
             "Seed lots: what is left, how much comes up; bags bought."),
    Declared("room", "places", key="f10", words="places", tip="Racks and shelves.", letter="l"),
    Declared("room", "light", subjects.LightSubject, "v", "light",
             "Light on the shelves: PPFD, DLI, and what the crops want."),
    Declared("room", "air", subjects.AirSubject, "a", "air",
             "Air: temperature, humidity, and what they mean."),
    Declared("room", "bills", subjects.BillsSubject, "o", "lamps, bills",
             "Lamps, their cost, and the circuits."),
    Declared("orders", "deliveries", key="E", words="deliveries",
             tip="Deliveries: whether there is enough, and what is packed."),
    Declared("packs", "cold", words="cold store", letter="C",
             tip="The cold store: pack lots, what is left of them, and what goes out."),
    Declared("planning", "plan", key="S", words="plan",
             tip="The plan: what to soak and sow for coming deliveries."),
    Declared("costs", "costs", subjects.CostsSubject, "M", "costs",
             "What trays cost and what is left per slot-day; what things cost."),
    Declared("yields", "yields", subjects.YieldsSubject, "G", "yields",
             "What crops gave, per tray and per slot-day, and what was lost."),
    Declared("orders", "customers", key="K", words="customers",
             tip="Customers, and what each of them orders."),
    Declared("recall", "holds", key="R", words="holds",
             tip="What is on hold, and why; recalls, real or practice."),
    Declared("packs", "trace", subjects.TraceSubject, "F", "trace",
             "Trace a lot: back to the bag, on to every customer."),
    Declared("trials", "trials", key="y", words="trials",
             tip="Side-by-side trials: set up, judge, decide."),
    Declared("help", "handbook", key="h", words="handbook",
             tip="The handbook: by job, from the first day on.", also=("ctrl+o",), bookless=True),
    Declared("room", "upkeep", words="cleaning and checks", letter="u",
             tip="Cleaning and checks that come round: how often, and when next."),
    Declared("records", "records", words="records", letter="i",
             tip="Records that inspectors ask for: weeks to review, assurances, sales, lots."),
    Declared("trays", "tray", subjects.TraySubject),
    Declared("trays", "batch", subjects.BatchSubject),
    Declared("recall", "recall", subjects.RecallSubject),
    Declared("crops", "template", subjects.TemplateSubject),
    Declared("room", "place", subjects.PlaceSubject),
    Declared("room", "room"),
    Declared("trials", "trial", subjects.TrialSubject),
    Declared("trials", "trial_form"),
    Declared("help", "chapter", subjects.ChapterSubject, bookless=True),
    Declared("help", "begin"),
)  # fmt: skip
SCREENS: Mapping[str, Declared] = {each.name: each for each in _ALL}
_ABOUT = {each.about: each for each in _ALL}


def screen_of(subject: Subject) -> Declared:
    """The screen that is about such a thing; each kind of subject but the base has one."""
    return _ABOUT[type(subject)]


def own_commands() -> dict[str, tuple[str, ...]]:
    """The own commands of every screen by the screen's name; imports them all."""
    return {name: each.screen.own for name, each in SCREENS.items()}
