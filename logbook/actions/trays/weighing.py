"""Weigh-in: cut weights, one tray or several together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.known import Known, refuse_ended
from logbook.growing.crops.yields import Expected
from logbook.growing.days import day_number, day_of, day_words, moment_words
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.measures import grams_words
from logbook.growing.trays.weighing import (
    against_usual,
    checked_grams,
    doubt,
    mould_words,
    share_out,
    usual_words,
)
from logbook.store.tables import WeightRow
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Weighed:
    """One tray's weight as it was written. `total_grams` holds earlier part cuts too."""

    keys: ClassVar = """
        tray=number grams grams_per_gram_seed day_number total_grams part shared question
        crop expected_grams=expected.grams spread_grams=expected.spread_grams act=act_id
    """

    number: TrayNumber
    crop: str
    grams: float
    total_grams: float
    """All that was cut from the tray, g."""
    grams_per_gram_seed: float | None
    day_number: DayNumber
    expected: Expected | None
    against: str
    question: str
    """What is odd about it; empty when nothing is."""
    shared: bool
    """Whether it is a share of trays weighed together."""
    part: bool
    """Whether more is to be cut from it."""
    act_id: int = 0


@dataclass(frozen=True, slots=True)
class WeighedTogether:
    """The weights of trays that were weighed together, a share each."""

    trays: tuple[Weighed, ...]


def doubts(
    book: Book, numbers: Sequence[int], grams: float, *, part: bool = False
) -> tuple[str, ...]:
    """Give what to ask before such a weight of trays (g in all) is written; nothing is written."""
    with book.reading() as reading:
        trays = reading.trays(numbers, live=False)
        expected = _expected(reading, trays)
    each = grams / len(trays)
    asked = (_doubt(book, known, each, expected[known.stored.number], part) for known in trays)
    return tuple(dict.fromkeys(filter(None, asked)))


def _doubt(book: Book, known: Known, grams: float, expected: Expected | None, part: bool) -> str:
    state = known.state
    odd = doubt(grams, state.grams or 0.0, expected, part=part, units=book.units)
    return " ".join(filter(None, [mould_seen(book, known), odd]))


def mould_seen(book: Book, known: Known) -> str:
    """Remind of mould on a tray, or give ''."""
    seen = known.state.mould_at
    if seen is None:
        return ""
    day = day_words(day_of(seen, book.zone), book.today())
    return mould_words(known.stored.number, day)


def _expected(reading: Reading, trays: Sequence[Known]) -> dict[int, Expected | None]:
    expected = reading.expected({known.stored.version_id for known in trays})
    return {known.stored.number: expected[known.stored.version_id] for known in trays}


def weigh(
    book: Book,
    numbers: Sequence[int],
    grams: float,
    *,
    at: datetime | None = None,
    part: bool = False,
    note: str = "",
) -> tuple[Weighed, ...]:
    """Write the cut weight of a tray, or of several weighed together (shared out evenly).

    With `part` the tray stays on the rack for another cut. A tray that was marked as cut and not
    yet weighed may still be. An odd weight is written and carries a question; only an impossible
    one is refused.

    Raises:
        Refused: an impossible weight, a tray that is not sown or no longer growing, a time ahead.
    """
    if not numbers:
        raise Refused("Which tray? Write its number.")
    for number in numbers:
        checked_grams(grams / len(numbers), number)
    with book.writing() as act:
        when = act.moment(at, "A cut")
        trays = act.reading.trays(numbers, live=False)
        refuse_ended([known for known in trays if part or not _awaits_weight(known)])
        for known in trays:
            _can_be_cut(book, known, when)
        expected = _expected(act.reading, trays)
        shares = share_out(grams, len(trays)) if len(trays) > 1 else (grams,)
        entry = act.entry(
            "weigh", [known.stored.id for known in trays], when, chore="cut", note=note,
            batch=trays[0].stored.batch_id
            if len({known.stored.batch_id for known in trays}) == 1
            else None,
        )  # fmt: skip
        act.session.add_all(
            WeightRow(
                entry_id=entry,
                tray_id=known.stored.id,
                grams=share,
                part=part,
                shared=len(trays) > 1,
            )
            for known, share in zip(trays, shares, strict=True)
        )
        return tuple(
            _weighed(book, known, share, when, expected[known.stored.number], part, len(trays) > 1,
                     entry)
            for known, share in zip(trays, shares, strict=True)
        )  # fmt: skip


def _awaits_weight(known: Known) -> bool:
    return known.state.status == "cut" and known.state.grams is None


def _can_be_cut(book: Book, known: Known, when: datetime) -> None:
    number, sown = known.stored.number, known.state.sown_at
    if known.state.status == "planned" or sown is None:
        raise Refused(f"Tray {number} is not sown yet, so there is nothing to cut.")
    if when < sown:
        raise Refused(
            f"Tray {number} was sown {moment_words(sown, book.now(), book.zone)}; "
            "it cannot have been cut before that."
        )


def _weighed(
    book: Book, known: Known, grams: float, when: datetime, expected: Expected | None, part: bool,
    shared: bool, act_id: int,
) -> Weighed:  # fmt: skip
    seed = known.seed_grams
    total = (known.state.grams or 0.0) + grams
    sown = known.state.sown_at or when
    return Weighed(
        number=known.stored.number,
        crop=known.template.label(),
        grams=grams,
        total_grams=total,
        grams_per_gram_seed=round(total / seed, 4) if seed else None,
        day_number=day_number(sown, when, book.zone, book.about.first_day),
        expected=expected,
        against=against_usual(total, expected),
        question=_doubt(book, known, grams, expected, part),
        shared=shared,
        part=part,
        act_id=act_id,
    )


def weighed_words(book: Book, weighed: Weighed) -> str:
    """Write a weigh-in in one line."""
    parts = [f"{weighed.number}  {grams_words(weighed.grams, book.units)}"]
    if weighed.total_grams != weighed.grams:
        parts.append(f"{grams_words(weighed.total_grams, book.units)} in all")
    if weighed.grams_per_gram_seed is not None:
        parts.append(f"{weighed.grams_per_gram_seed:.2f} g per g of seed")
    if weighed.expected is not None:
        parts.append(usual_words(weighed.expected, book.units))
    if weighed.against:
        parts.append(weighed.against)
    parts.append(f"day {weighed.day_number}")
    if weighed.part:
        parts.append("part cut, stays on the rack")
    if weighed.shared:
        parts.append("shared out")
    return ", ".join(parts)
