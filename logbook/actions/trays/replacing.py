"""Replacing: a wrong entry is struck and the right one written in its place, in one act."""

from logbook.actions.book import Book
from logbook.actions.packs.owing import short_lots
from logbook.actions.trays import replacement as others
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.entry_words import entry_noun
from logbook.actions.trays.replacing_sowings import (
    MoveReplacement,
    PlanReplacement,
    SowingReplacement,
)
from logbook.actions.trays.striking import entry_to_strike, write_strike
from logbook.actions.writing import Act
from logbook.growing.kinds import Kind, kind_of
from logbook.growing.numbers import numbers_words
from logbook.text import Refused, clean_reason, listed
from logbook.ways import Way

_OF_KIND: dict[str, type[others.Replacement]] = {
    "sow": SowingReplacement,
    "plan": PlanReplacement,
    "jot": others.PlaceReplacement,
}
_OF_CARRIED: dict[str, type[others.Replacement]] = {
    "weights": others.WeightsReplacement,
    "watering": others.WateringReplacement,
    "look": others.LookReplacement,
    "placing": MoveReplacement,
}


def _writer(kind: Kind) -> type[others.Replacement]:
    """What writes an entry of a kind anew: by the kind, else by what it carries, else a copy."""
    ways = [
        _OF_KIND.get(kind.name),
        *(_OF_CARRIED.get(each) for each in kind.carries),
        others.Replacement,
    ]
    return next(way for way in ways if way is not None)


_NAMES = {
    "at": "time", "numbers": "trays", "amount_ml": "amount", "part": "part mark",
    "keep": "mark that it grows again", "lot": "seed lot",
}  # fmt: skip


def replace_entry(book: Book, entry_id: int, why: str, changes: others.Changes) -> Done:
    """Strike an entry with a reason and write it anew with what is changed, in one act.

    Both stay in the record with who and when; sums and views use the new one, which keeps the
    old one's place among entries of the same moment. Raises Refused where there is no such standing
    entry, it has no such part to change, or the new one cannot be (the sentence says what could).
    """
    if not changes.filled():
        raise Refused("What is right instead? Give the time, the note, the weight or the trays.")
    with book.writing() as act:
        return replace_within(act, entry_id, clean_reason(why), changes)


def replace_within(act: Act, entry_id: int, reason: str, changes: others.Changes) -> Done:
    """As replace_entry(), as part of an act."""
    entry = entry_to_strike(act, entry_id)
    kind = kind_of(entry.kind)
    if not kind.replaced:
        raise Refused(
            f"Entry {entry_id} belongs to a trial; strike it out, and write it again with "
            f"{Way.TRIAL}."
        )
    odd = [_NAMES.get(name, name) for name in changes.filled() if name not in kind.takes]
    if odd:
        can = [_NAMES.get(name, name) for name in kind.takes]
        raise Refused(
            f"Entry {entry_id} ({entry_noun(act.reading, entry)}) has no {listed(odd, joint='or')} "
            "to "
            f"change; it has {listed(can)}."
        )
    write_strike(act, entry, reason)
    anew = _writer(kind)(act, entry, changes)
    new, notices = anew.write()
    struck = f"struck out {entry_noun(act.reading, entry)} {numbers_words(entry.trays)}".strip()
    words = f"{struck}; entry {new} replaces entry {entry_id}"
    notices = [*notices, *short_lots(act.reading, [entry.id, new])]
    return done_of(act, words, [known.number for known in anew.trays], notices)
