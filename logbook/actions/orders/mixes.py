"""Mixes of crops: looking, putting, removing."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.crops.allergens import together
from logbook.growing.days import day_words
from logbook.growing.measures import number_words
from logbook.growing.orders.customer import Mix
from logbook.growing.quantities import PARTS
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.orders import read_mixes
from logbook.store.reads.templates import StoredTemplate, read_templates
from logbook.text import Refused, clean_name, fold, listed
from logbook.ways import Way

_PART = re.compile(
    r"\s*(?P<first>[\d.,]+)\s*%?\s+(?P<crop>.*?)\s*|\s*(?P<name>.*?)\s+(?P<last>[\d.,]+)\s*%?\s*"
)


@dataclass(frozen=True, slots=True)
class MixPart:
    """What a crop has of a mix."""

    crop: str
    share_percent: float


@dataclass(frozen=True, slots=True)
class MixView:
    """A mix as it is now."""

    name: str
    parts: tuple[MixPart, ...]
    allergens: tuple[str, ...] | None
    """Those of all its parts; null where of one they are not known."""

    @property
    def words(self) -> str:
        """Say what is in it: "60 % radish, 40 % mustard; contains mustard"."""
        shares = ", ".join(
            f"{number_words(each.share_percent, 0)} % {each.crop}" for each in self.parts
        )
        if self.allergens is None:
            return f"{shares}; allergens not known"
        return f"{shares}; contains {listed(self.allergens)}" if self.allergens else shares


@dataclass(frozen=True, slots=True)
class MixList:
    """The mixes, by name."""

    mixes: tuple[MixView, ...]


def mixes_now(reading: Reading) -> dict[int, Mix]:
    """The mixes that there are, by id, as they will be at last."""
    found = {mix.id: mix for mix in read_mixes(reading)}
    return {each: mix for each, mix in found.items() if not mix.gone}


def list_mixes(book: Book) -> MixList:
    """The mixes that there are, by name."""
    with book.reading() as reading:
        stored = read_templates(reading)
        views = [_view(mix.name, mix.shares, stored) for mix in mixes_now(reading).values()]
        return MixList(tuple(sorted(views, key=lambda each: fold(each.name))))


def _view(name: str, shares: Mapping[int, float], stored: Sequence[StoredTemplate]) -> MixView:
    """A mix of the shares of templates, the most first."""
    crops = {each.id: each.template for each in stored}
    by_share = sorted(shares.items(), key=lambda each: -each[1])
    parts = tuple(MixPart(crops[crop].name, 100 * share) for crop, share in by_share)
    return MixView(name, parts, together(crops[crop].allergens_known for crop in shares))


def put_mix(book: Book, name: str, parts: str, since: str = "", of: str = "") -> Done:
    """Write a mix, or what is in it from a day on (today); parts read "2 radish + 1 pea shoots".

    `of` is the name that a mix had, where it gets another from that day on; parts may be empty then.
    """
    with book.writing() as act:
        reading = act.reading
        day = parse_day_ahead(since, reading.now, reading.zone) if since else reading.today
        templates = read_templates(reading)
        known = mixes_now(reading)
        if (old := _named(known, of or name)) is None and of:
            raise _none(of)
        said: dict[int, float] = dict(old.shares) if of and old and not parts.strip() else {}
        for piece in filter(str.strip, re.split(r"[;+\n]", parts)):
            found = _PART.fullmatch(piece)
            if found is None:
                raise Refused(
                    f'"{piece.strip()[:40]}" needs its parts; write it like 2 radish + 1 pea '
                    "shoots."
                )
            crop = find_template(found["crop"] or found["name"], templates)
            if crop.id in said:
                raise Refused(f"{crop.template.name} is in it twice; write it once.")
            said[crop.id] = PARTS.read(found["first"] or found["last"])
        if len(said) < 2:
            raise Refused("A mix has two crops or more; write it like 2 radish + 1 pea shoots.")
        name = clean_name(name, "name of the mix")
        if any(fold(each.template.name) == fold(name) for each in templates):
            raise Refused(f'"{name}" is a crop template; give the mix another name.', "name")
        if (other := _named(known, name)) is not None and other is not old:
            raise Refused(f'There is a mix "{other.name}" already; choose another name.', "name")
        if old is not None and any(
            day < row.since for row in read_mixes(reading) if row.id == old.id
        ):
            raise Refused("That mix has a later change already; give a later day.", "since")
        _write(act, name, old.id if old else 0, day, said)
        whole = sum(said.values())
        view = _view(name, {crop: part / whole for crop, part in said.items()}, templates)
        from_day = "" if day <= reading.today else f", from {day_words(day, reading.today)}"
        was = f", before {old.name}" if old and old.name != name else ""
        return done_of(act, f"{name}{was}: {view.words}{from_day}", ())


def _named(known: Mapping[int, Mix], name: str) -> Mix | None:
    return next((each for each in known.values() if fold(each.name) == fold(name)), None)


def _none(name: str) -> Refused:
    return Refused(f'There is no mix "{name[:60]}"; {Way.MIXES} lists them.', "name")


def _write(
    act: Act, name: str, mix: int, since: date, parts: dict[int, float], *, gone: bool = False
) -> None:
    entry = act.entry("mix", (), note=name)
    act.put(
        "mix", entry, mix_id=mix or entry, name=name, name_key=fold(name), since=since, gone=gone
    )
    act.put(
        "mix_part", entry, ({"template_id": crop, "parts": part} for crop, part in parts.items())
    )


def remove_mix(book: Book, name: str) -> Done:
    """A mix is made no more; what was ordered of it before stays in the record."""
    with book.writing() as act:
        mix = _named(mixes_now(act.reading), name)
        if mix is None:
            raise _none(name)
        _write(act, mix.name, mix.id, act.reading.today, dict(mix.shares), gone=True)
        return done_of(act, f"{mix.name}: no longer mixed", ())
