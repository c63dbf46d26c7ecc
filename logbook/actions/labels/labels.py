"""Labels of packs: what the book knows of a crop or mix, put together with the lot."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.country import country_of_zone
from logbook.actions.crops.templates import find_template
from logbook.actions.orders.mixes import mixes_now
from logbook.actions.reading import Reading
from logbook.growing.crops.allergens import law_of, together
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.labels.gs1 import gtin_read
from logbook.growing.labels.label import Label
from logbook.growing.when import parse_day, parse_day_ahead
from logbook.store.reads.templates import read_templates
from logbook.text import Refused, clean_name, clean_words, fold, listed
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class LabelDraft:
    """What is said of a label: of what it is, of which lot; `grams` of a pack, days as typed ('': as is usual)."""

    what: str
    lot: str = ""
    grams: float | None = None
    packed: str = ""
    best_before: str = ""
    organic: str = ""
    gtin: str = ""


@dataclass(frozen=True, slots=True)
class LabelView:
    """A label, and the GS1 elements of its pack where there is a GTIN."""

    keys: ClassVar = """
        name=label.name parts=label.parts grams=label.grams lot=label.lot packed_on=label.packed_on
        best_before=label.best_before allergens=label.allergens allergen_law=law contains=label.contains
        maker=label.maker address=label.address organic=label.organic gtin=label.gtin gs1_elements=label.elements
    """

    label: Label

    @property
    def law(self) -> str | None:
        """Whose list of allergens holds here; null where none is known."""
        return None if self.label.law is None else self.label.law.source


@dataclass(frozen=True, slots=True)
class _Made:
    name: str
    crops: tuple[CropTemplate, ...]
    mixed: bool


def label_of(book: Book, draft: LabelDraft) -> LabelView:
    """Put a label together; raise Refused where what the law wants on it is not in the book."""
    with book.reading() as reading:
        about = reading.about
        if not about.maker or not about.address:
            raise Refused(
                f"A label names who makes what is in the pack, with the full address; {Way.MAKER} says so.",
                "maker",
            )
        made = _what(reading, draft.what)
        if not draft.lot:
            raise Refused("Of which lot? Give its code.", "lot")
        packed = reading.today
        if draft.packed:
            packed = parse_day(draft.packed, reading.now, reading.zone)
        best = packed + min(each.keeps for each in made.crops)
        if draft.best_before:
            best = parse_day_ahead(draft.best_before, reading.now, reading.zone)
        return LabelView(
            Label(
                made.name, tuple(each.crop for each in made.crops) if made.mixed else (), draft.grams,
                clean_name(draft.lot, "lot code"), packed, _kept(packed, best),
                allergens_of(made.crops), law_of(country_of_zone(about.zone)), about.maker, about.address,
                about.units, organic=clean_words(draft.organic, "organic mark"),
                gtin=draft.gtin and gtin_read(draft.gtin, about.gs1_prefix or ""),
            )
        )  # fmt: skip


def _kept(packed: date, best: date) -> date:
    if best < packed:
        raise Refused("The best-before day is before the day of packing.", "best_before")
    return best


def _what(reading: Reading, what: str) -> _Made:
    """A crop or a mix by name, the crops of a mix by share, the largest first."""
    stored = read_templates(reading)
    by_id = {each.id: each.template for each in stored}
    mix = next(
        (each for each in mixes_now(reading).values() if fold(each.name) == fold(what)), None
    )
    if mix is None:
        template = find_template(what, stored).template
        return _Made(template.label(), (template,), mixed=False)
    shares = sorted(mix.shares.items(), key=lambda each: -each[1])
    return _Made(mix.name, tuple(by_id[crop] for crop, _ in shares), mixed=True)


def allergens_of(crops: Sequence[CropTemplate]) -> tuple[str, ...]:
    """All allergens of crops; raise Refused where of one they are not known."""
    found = together(each.allergens_known for each in crops)
    if found is None:
        unsaid = [each.name for each in crops if each.allergens_known is None]
        raise Refused(
            f"What buyers must be told of {listed(unsaid)} isn't known; {Way.ALLERGENS} says its allergens, or none.",
            "allergens",
        )
    return found
