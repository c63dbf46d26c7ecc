"""A trace: from what was asked for back to the bag and forward to every customer."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Annotated, ClassVar, get_args

from logbook.growing.days import day_words
from logbook.growing.packs.flow import What
from logbook.text import plural


@dataclass(frozen=True, slots=True)
class Step:
    """A stop of a trace."""

    keys: ClassVar = "what code day grams words"

    what: Annotated[str, (*get_args(What), "supplier", "customer")]
    code: str
    """What it is called by: a lot's code, a batch, a tray with the day of its sowing, a customer."""
    day: date | None
    """When it was bought, sown, cut, packed or delivered; null where that is not known."""
    grams: float
    """Cut grams of what is traced in it, g; of a mixed one in proportion."""
    words: str = ""
    """What else is known of it."""
    by: str = ""
    """Who cut or packed it."""


@dataclass(frozen=True, slots=True)
class CustomerShare:
    """What a customer got of what is traced, on a day."""

    customer: str
    lots: tuple[str, ...]
    """The pack lots; of a live tray its number with the day of its sowing."""
    grams: float
    day: date


@dataclass(frozen=True, slots=True)
class MayHaveGot:
    """Packs of a crop from no pack lot, of days on which what is called back, and is in none, still kept."""

    keys: ClassVar = "customer contact crop day packs"

    customer: str
    contact: str
    crop: str
    """The crop, or the mix."""
    day: date
    packs: int

    @property
    def what(self) -> str:
        """Say what and when: "radish, 2 packs, delivered Fri 27 Nov"."""
        return f"{self.crop}, {plural(self.packs, 'pack')}, delivered {day_words(self.day)}"

    @property
    def words(self) -> str:
        """Say who, what and when."""
        return f"{self.customer}: {self.contact or 'no contact written'}, {self.what}"


@dataclass(frozen=True, slots=True)
class Row:
    """A step as a row of a file."""

    keys: ClassVar = "way *step"

    way: Annotated[str, ("back", "root", "forward")]
    step: Step


@dataclass(frozen=True, slots=True)
class Trace:
    """What is traced, with every step back and forward, nearest first; weights are cut grams."""

    keys: ClassVar = """
        root=root.code back forward grams_in grams_out grams_stock grams_waste grams_unaccounted
        customers may_have_got
    """

    root: Step
    back: tuple[Step, ...]
    forward: tuple[Step, ...]
    customers: tuple[CustomerShare, ...]
    grams_in: float
    """Cut of what is traced, g: what went out, is in stock, was wasted and is unaccounted for."""
    grams_out: float
    """What customers got, and what was used here."""
    grams_stock: float
    grams_waste: float
    grams_unaccounted: float
    """Cut and in no pack lot; below 0 more went out than the standing weights say."""
    may_have_got: tuple[MayHaveGot, ...]
    """Who may have got what is in no pack lot."""

    @property
    def rows(self) -> Iterator[Row]:
        """All steps in the order of the way."""
        ways = {"back": self.back[::-1], "root": (self.root,), "forward": self.forward}
        for way, steps in ways.items():
            yield from (Row(way, step) for step in steps)
