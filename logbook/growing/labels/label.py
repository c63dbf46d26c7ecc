"""The label of a pack: what is in it, its lot and dates, its allergens, who makes it."""

from dataclasses import dataclass
from datetime import date

from logbook.growing.crops.allergens import GLUTEN, Law
from logbook.growing.labels.gs1 import element_words, elements
from logbook.growing.labels.maker import address_lines
from logbook.growing.labels.sticker import TOGETHER, Line, Sticker
from logbook.growing.measures import Units, grams_words
from logbook.text import listed

BLANK = "________"
"""What is written by hand."""


@dataclass(frozen=True, slots=True)
class Label:
    """What a pack of a lot says. `parts` are a mix's crops, the most first; `grams` of a pack, None: by hand.

    `allergens` go by our names; `law` is that of the place, None where no list is known here.
    """

    name: str
    parts: tuple[str, ...]
    grams: float | None
    lot: str
    packed_on: date
    best_before: date
    allergens: tuple[str, ...]
    law: Law | None
    maker: str
    address: str
    units: Units
    live: bool = False
    """Whether it is sold as a live tray: it has no weight and is not kept cold."""
    organic: str = ""
    gtin: str = ""

    @property
    def contains(self) -> str:
        """The statement of allergens, those that the law of the place names in capitals; '' for none.

        A typeset that stands out is asked for by Regulation (EU) No 1169/2011, Article 21(1)(b), and a
        "Contains" statement allowed by 21 U.S.C. 343(w)(1)(A).
        """
        named = [
            (name.upper() if self.law is None or name in self.law.names else name)
            + (" (gluten)" if name in GLUTEN else "")
            for name in self.allergens
        ]
        return f"Contains: {listed(named)}" if named else ""

    @property
    def weight(self) -> str:
        """The net weight: in a US room in both kinds of units (21 CFR 101.7)."""
        if self.live:
            return "live tray"
        if self.grams is None:
            return f"net {BLANK}"
        metric = grams_words(self.grams, "metric")
        if self.units == "us":
            return f"Net wt {grams_words(self.grams, 'us')} ({metric})"
        return metric

    @property
    def elements(self) -> str:
        """The GS1 elements as people read them; '' without a GTIN."""
        if not self.gtin:
            return ""
        return element_words(elements(self.gtin, self.lot, self.packed_on, self.best_before))

    @property
    def sticker(self) -> Sticker:
        """Its lines, with the lot as the code square."""
        days = (("packed", self.packed_on), ("best before", self.best_before))
        plain = (
            ", ".join(self.parts),
            f"{_together(self.weight)}, {_together(f'lot {self.lot}')}",
            ", ".join(_together(f"{what} {date_words(day)}") for what, day in days),
        )
        after = (
            self.organic,
            (
                "Keep refrigerated at 41 °F or below"
                if self.units == "us"
                else "Keep at 5 °C or below"
            )
            if not self.live
            else "Live plants: cut just before use",
            self.elements,
            ", ".join([self.maker, *address_lines(self.address)]),
        )
        return Sticker(
            (
                Line(self.name, 1.4, bold=True),
                *(Line(text) for text in plain if text),
                *([Line(self.contains, bold=True)] if self.contains else []),
                *(Line(text) for text in after if text),
            ),
            self.lot,
        )


def _together(words: str) -> str:
    return words.replace(" ", TOGETHER)


def date_words(day: date) -> str:
    """A day that is read alike everywhere: "5 Dec 2026"."""
    return f"{day.day} {day:%b} {day.year}"


@dataclass(frozen=True, slots=True)
class Tape:
    """The tape of a tray: its number large, what grows on it and since when."""

    number: str
    crop: str
    sown_on: date | None
    mark: str = ""

    @property
    def sticker(self) -> Sticker:
        """Its lines, with the number as the code square."""
        sown = "not sown yet" if self.sown_on is None else f"sown {date_words(self.sown_on)}"
        lines = (Line(self.number, 2.5, bold=True), Line(self.crop), Line(sown), Line(self.mark))
        return Sticker(tuple(line for line in lines if line.text), f"tray {self.number}")
