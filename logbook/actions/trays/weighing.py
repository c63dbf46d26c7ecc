"""Weigh-in: cut weights, one tray or several together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.shortages import Shortages
from logbook.actions.packs.joining import lots_of_cut
from logbook.actions.reading import Reading
from logbook.actions.trays.done import entry_on, told_words
from logbook.actions.trays.named import who_then
from logbook.growing.crops.yields import Expected, expect
from logbook.growing.days import day_of, day_words
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.trays import weighing as rules
from logbook.growing.trays.cuts import before_unweighed
from logbook.growing.trays.tray_now import TrayNow, refuse_ended, refuse_held
from logbook.store.reads.batches import batches_gone
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Weighed:
    """One tray's weight as it was written. `total_grams` holds earlier part cuts too."""

    keys: ClassVar = """
        tray=number grams grams_per_gram_seed day_number total_grams harvest harvest_grams part keep shared question
        crop *expected act=act_id unusual lot
    """

    number: TrayNumber
    crop: str
    grams: float
    total_grams: float
    """All that was cut from the tray, g."""
    harvest: int
    """Which harvest it is of: 1 is the first, the others are regrowth."""
    harvest_grams: float
    """All that was cut of that harvest, g."""
    grams_per_gram_seed: float | None
    day_number: DayNumber
    expected: Expected | None
    against: str
    question: str
    """What is odd about it; empty when nothing is."""
    shared: bool
    """Whether it is a share of trays weighed together."""
    part: bool
    """Whether more of this harvest is to be cut from it."""
    keep: bool
    """Whether it was left to grow again."""
    act_id: int = 0
    told: str = ""
    """When it was cut, where that was said."""
    lot: str = ""
    """The code of the pack lot that it went into; '' for nothing cut."""
    unusual: str = ""
    """Where its batch has left the rack with it: that it gave less than is usual."""
    notices: tuple[str, ...] = ()
    """Of the last tray of an act: which delivery is short by it."""


def doubts(
    book: Book, numbers: Sequence[int], grams: float, *, part: bool = False,
    at: datetime | None = None,
) -> tuple[str, ...]:  # fmt: skip
    """What to ask before such a weight of trays (g in all) is written; nothing is written."""
    with book.reading() as reading:
        when = at or reading.now
        trays = _to_weigh(reading, numbers, grams, when, part=part)
        each, expected = grams / len(trays), _expected(reading, trays)
        asked = rules.untimely_words((each.number, untimely_now(each, when)) for each in trays)
        asked.append(rules.strangers((tray.number, tray.template.label()) for tray in trays))
        asked += [_doubt(reading, tray, each, usual, part) for tray, usual in expected]
    return tuple(dict.fromkeys(filter(None, asked)))


def _to_weigh(
    reading: Reading, numbers: Sequence[int], grams: float, when: datetime, *, part: bool
) -> list[TrayNow]:
    """The trays as they were before a cut whose weight is written only now."""
    trays = reading.trays(numbers, live=False)
    for known in trays:
        rules.checked_grams(grams / len(trays), known.number)
    return [
        replace(
            known,
            state=replace(
                known.state, harvests=before_unweighed(known.state.harvests, when, part=part)
            ),
        )
        for known in trays
    ]


def _weighed_late(reading: Reading, trays: Sequence[TrayNow]) -> bool:
    """Whether the weight is of cuts after which trays were kept; raises Refused where of some alone."""
    kept = {each.id: each.state.harvest for each in reading.folded([t.stored for t in trays])}
    late = [each.number for each in trays if kept[each.id] > each.state.harvest]
    if late and len(late) < len(trays):
        raise Refused(
            f"Cut already and growing again: {numbers_words(late)}. Weigh them separately."
        )
    return bool(late)


def _doubt(
    reading: Reading, known: TrayNow, grams: float, expected: Expected | None, part: bool
) -> str:
    odd = rules.doubt(grams, known.state.part_grams, expected, part=part, units=reading.units)
    return " ".join(filter(None, [mould_seen(known), odd]))


def untimely_now(tray: TrayNow, now: datetime) -> str:
    """Why a tray isn't to be cut at a moment; '' where it may be."""
    return rules.untimely(tray.template, tray.state, now, tray.hours)


def mould_seen(tray: TrayNow) -> str:
    """Remind of mould on a tray; '' where none was seen."""
    seen = tray.state.mould_at
    if seen is None:
        return ""
    return rules.mould_words(tray.number, day_words(day_of(seen, tray.hours.zone), tray.today))


def _expected(reading: Reading, trays: Sequence[TrayNow]) -> list[tuple[TrayNow, Expected | None]]:
    meant = reading.meant(trays)
    whole = (meant[each.id]._replace(cut=0.0) for each in trays)
    return [(known, expect([each])) for known, each in zip(trays, whole, strict=True)]


def weigh(
    book: Book, numbers: Sequence[int], grams: float, *, at: datetime | None = None,
    part: bool = False, keep: bool = False, note: str = "", lot: str = "",
) -> tuple[Weighed, ...]:  # fmt: skip
    """Write the cut weight of a tray, or of several weighed together (shared out evenly).

    With `part` the tray stays on the rack for another cut of the same harvest, with `keep` it was
    cut and grows again. It goes into the pack lot of its crop and day, or as `lot` says (see
    lots_of_cut()). A tray that was marked as cut and not yet weighed may still be. An odd weight is written and carries a question; only an impossible
    one is refused, a tray that is not sown or no longer growing, or a time ahead.
    """
    if not numbers:
        raise Refused("Which tray? Write its number.")
    rules.refuse_both(part, keep)
    with book.writing() as act:
        when = act.moment(at, "A cut")
        reading = act.reading
        trays = _to_weigh(reading, numbers, grams, when, part=part)
        keep = keep or _weighed_late(reading, trays)
        refuse_ended([known for known in trays if part or keep or not known.state.unweighed])
        refuse_held(trays, when)
        for known in trays:
            _can_be_cut(reading, known, when)
        shared = len(trays) > 1
        shares = rules.share_out(grams, len(trays)) if shared else (grams,)
        usual, shortages = _expected(reading, trays), Shortages(reading, trays)
        entry = entry_on(act, "weigh", trays, when, chore="cut", note=note)
        lots = lots_of_cut(act, entry, trays, when, lot) if grams else {}
        said = (
            {"tray_id": tray.id, "grams": share, "lot_id": lots[tray.id].id if lots else None}
            for tray, share in zip(trays, shares, strict=True)
        )
        act.put("weight", entry, said, part=part, keep=keep, shared=shared)
        weighed = []
        for share, (known, expected) in zip(shares, usual, strict=True):
            total, whole = (known.state.grams or 0.0) + share, known.state.lacks_none
            seed = known.seed_grams if whole else None
            harvested = known.state.part_grams + share
            sown = known.state.sown_at or when
            weighed.append(
                Weighed(
                    number=known.number, crop=known.template.label(), grams=share,
                    total_grams=total, harvest=known.state.harvest, harvest_grams=harvested,
                    grams_per_gram_seed=round(total / seed, 4) if seed else None,
                    day_number=known.hours.day_number(sown, when), expected=expected,
                    against=_against(harvested, expected, part=part, whole=whole),
                    question=_doubt(reading, known, share, expected, part), shared=shared,
                    part=part, keep=keep, act_id=entry, told=told_words(act),
                    lot=lots[known.id].code if lots else "",
                )
            )  # fmt: skip
        weighed[-1] = replace(weighed[-1], notices=tuple(shortages.made_by(act)))
        act.settle()
        return tuple(_with_unusual(act.reading, weighed, trays))


def _with_unusual(
    reading: Reading, weighed: Sequence[Weighed], trays: Sequence[TrayNow]
) -> Iterator[Weighed]:
    """The same, with what is unusual about batches that have left the rack by it."""
    found = {}
    for batch in batches_gone(reading, {tray.stored.batch_id for tray in trays}):
        from logbook.actions.yields.unusual import unusual_batch

        found[batch] = unusual_batch(reading, batch)
    for one, tray in zip(weighed, trays, strict=True):
        unusual = found.pop(tray.stored.batch_id, None)
        yield (
            one if unusual is None else replace(one, unusual=f"batch {tray.batch} {unusual.words}")
        )


def _against(grams: float, expected: Expected | None, *, part: bool, whole: bool) -> str:
    if not whole:
        return "not all of it was weighed"
    return "" if part else rules.against_usual(grams, expected)


def _can_be_cut(reading: Reading, known: TrayNow, when: datetime) -> None:
    number, sown = name_words(known.number), known.state.sown_at
    if known.state.status == "planned" or sown is None:
        raise Refused(f"Tray {number} is not sown yet, so there is nothing to cut.")
    if when < sown:
        raise Refused(
            f"Tray {number} was sown {known.when(sown)}; "
            "it cannot have been cut before that."
            f"{who_then(reading, known.stored, when, reading.now, reading.zone)}"
        )


def weighed_words(book: Book, weighed: Weighed) -> str:
    """Write a weigh-in in one line."""
    parts = [f"{weighed.number}  {grams_words(weighed.grams, book.units)}"]
    if weighed.total_grams != weighed.grams:
        parts.append(f"{grams_words(weighed.total_grams, book.units)} in all")
    if weighed.grams_per_gram_seed is not None:
        parts.append(f"{weighed.grams_per_gram_seed:.2f} g per g of seed")
    if weighed.expected is not None:
        parts.append(rules.usual_words(weighed.expected, book.units))
    if weighed.against:
        parts.append(weighed.against)
    parts.append(f"day {weighed.day_number}")
    if weighed.lot:
        parts.append(f"lot {weighed.lot}")
    if weighed.harvest > 1:
        parts.append(f"harvest {weighed.harvest}")
    if weighed.part:
        left = weighed.expected and weighed.expected.rest(weighed.harvest_grams)
        more = f", {grams_words(left.grams, book.units)} more expected" if left else ""
        parts.append(f"part cut, stays on the rack{more}")
    if weighed.keep:
        parts.append("grows again")
    if weighed.shared:
        parts.append("shared out")
    if weighed.told:
        parts.append(f"cut {weighed.told}")
    if weighed.unusual:
        parts.append(weighed.unusual)
    return ", ".join(parts)
