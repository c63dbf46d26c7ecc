"""Labels of packs: what the book knows of a crop or mix, put together with the lot."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.country import country_of_zone
from logbook.actions.crops.templates import find_template
from logbook.actions.orders.mixes import mixes_now
from logbook.actions.packs.held import held_lot
from logbook.actions.reading import Reading
from logbook.actions.records.organic import organic
from logbook.actions.yields.listing import Span
from logbook.growing.crops.allergens import law_of, together
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.labels.gs1 import gtin_read
from logbook.growing.labels.label import Label
from logbook.growing.packs.lots import LotNow, PackLot
from logbook.growing.when import parse_day, parse_day_ahead
from logbook.store.reads.orders import read_mixes
from logbook.store.reads.packs import lots_of_code, read_lots, read_lots_now
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
    notices: tuple[str, ...] = ()

    @property
    def law(self) -> str | None:
        """Whose list of allergens holds here; null where none is known."""
        return None if self.label.law is None else self.label.law.source


@dataclass(frozen=True, slots=True)
class _Made:
    """What is in a pack: its crops, the most first, and of which lot, as far as is known."""

    name: str
    crops: tuple[CropTemplate, ...]
    mixed: bool
    stands: LotNow | None = None


def label_of(book: Book, draft: LabelDraft) -> LabelView:
    """Put a label together; raise Refused where what the law wants on it is not in the book."""
    with book.reading() as reading:
        about = reading.about
        if not about.maker or not about.address:
            raise Refused(
                f"A label must name the maker, with the full address; {Way.MAKER} sets both.",
                "maker",
            )
        made = _what(reading, draft.what)
        lot = None if made.stands is None else made.stands.lot
        if lot is None and not draft.lot:
            raise Refused(
                f"Which lot? Give its code instead of {made.name}, or add a code of your own.",
                "lot",
            )
        packed = reading.today if lot is None else lot.packed_on
        if draft.packed:
            packed = parse_day(draft.packed, reading.now, reading.zone)
        keeps = min(each.keeps for each in made.crops)
        best = packed + keeps if lot is None or draft.packed else lot.best_before
        if draft.best_before:
            best = parse_day_ahead(draft.best_before, reading.now, reading.zone)
        if best < packed:
            raise Refused("The best-before day is before the day of packing.", "best_before")
        view = LabelView(
            Label(
                made.name, tuple(each.crop for each in made.crops) if made.mixed else (), draft.grams,
                clean_name(draft.lot or (lot.code if lot else ""), "lot code"), packed, best,
                allergens_of(made.crops), law_of(country_of_zone(about.zone)), about.maker, about.address,
                about.units, organic=clean_words(draft.organic, "organic mark"),
                gtin=draft.gtin and gtin_read(draft.gtin, about.gs1_prefix or ""),
                live=any(each.grams is None for each in made.stands.packed) if made.stands else False,
            ),
            _held(reading, made.stands),
        )  # fmt: skip
    return view if lot is None else _marked(book, view, lot, draft.organic)


def _marked(book: Book, view: LabelView, lot: PackLot, said: str) -> LabelView:
    """The label with the organic mark that its lot may have; a mark that was said stays, and is doubted."""
    if not said and not book.about.certificate:
        return view
    found = organic(book, Span(since=lot.packed_on, until=lot.packed_on))
    pure = any(each.code == lot.code and each.all_organic for each in found.lots)
    if not said:
        mark = f"Organic: {found.certificate}" if pure and found.certified else ""
        return replace(view, label=replace(view.label, organic=mark))
    doubts = [] if pure else ["By the book, not all seed of this lot is organic."]
    doubts += (
        [] if found.certified else ["The book has no organic certificate that is valid today."]
    )
    return replace(view, notices=(*view.notices, *doubts))


def _held(reading: Reading, stands: LotNow | None) -> tuple[str, ...]:
    """Say that a lot is on hold, and why."""
    hold = held_lot(reading, stands) if stands else None
    return () if hold is None else (f"It is on hold, so it may not go out: {hold.words}.",)


def _what(reading: Reading, what: str) -> _Made:
    """A lot by its code, else a mix or a crop by name; raise Refused where there is none."""
    stored = read_templates(reading)
    by_id = {each.id: each.template for each in stored}
    if lots := read_lots(reading, lots_of_code(reading, fold(what))):
        if not (standing := read_lots_now(reading, lots)):
            raise Refused(f'The lot "{what[:40]}" is empty: what went into it was struck out.')
        (lot,) = standing
        if (crop := lot.lot.template) is not None:
            return _Made(by_id[crop].label(), (by_id[crop],), mixed=False, stands=lot)
        return _Made(*_mixed(reading, lot, by_id), mixed=True, stands=lot)
    mix = next(
        (each for each in mixes_now(reading).values() if fold(each.name) == fold(what)), None
    )
    if mix is not None:
        return _Made(mix.name, _by_share(mix.shares, by_id), mixed=True)
    try:
        template = find_template(what, stored).template
    except Refused as refused:
        raise Refused(
            f'No pack lot has the code "{what.strip()[:40]}". {refused}', "what"
        ) from refused
    return _Made(template.label(), (template,), mixed=False)


def _mixed(
    reading: Reading, stands: LotNow, by_id: Mapping[int, CropTemplate]
) -> tuple[str, tuple[CropTemplate, ...]]:
    """The name of a mixed lot's mix, and its crops: those it took, else those of the mix."""
    mixes = {each.id: each for each in read_mixes(reading)}
    grams = dict[int, float]()
    sources = read_lots(reading, {each.source for each in stands.parts})
    for each in stands.parts:
        source = sources[each.source]
        shares = mixes[source.mix].shares if source.mix else {source.template or 0: 1.0}
        for crop, share in shares.items():
            grams[crop] = grams.get(crop, 0.0) + each.grams * share
    mix = mixes[stands.lot.mix or 0]
    return mix.name, _by_share(grams or mix.shares, by_id)


def _by_share(
    shares: Mapping[int, float], by_id: Mapping[int, CropTemplate]
) -> tuple[CropTemplate, ...]:
    return tuple(by_id[crop] for crop, _ in sorted(shares.items(), key=lambda each: -each[1]))


def allergens_of(crops: Sequence[CropTemplate]) -> tuple[str, ...]:
    """All allergens of crops; raise Refused where of one they are not known."""
    found = together(each.allergens_known for each in crops)
    if found is None:
        unsaid = [each.name for each in crops if each.allergens_known is None]
        raise Refused(
            f"The allergens of {listed(unsaid)} aren't known; {Way.ALLERGENS} sets them, or none.",
            "allergens",
        )
    return found
