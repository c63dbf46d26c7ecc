"""What is done to trays: chores, skips, looks, jots, moves and discards."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.entry_words import words_into
from logbook.actions.sowing import place_trays
from logbook.actions.trays import Known, taken_slots
from logbook.actions.writing import Act
from logbook.growing.chores import CHANGES, NOUNS, WORDS, change_into, chore_named
from logbook.growing.days import moment_words
from logbook.growing.forecast import stage_for_chore
from logbook.growing.keys import TrayNumber
from logbook.growing.life import TrayState, fold_tray
from logbook.growing.looks import (
    MOULD_CAUTION,
    Look,
    checked_look,
    has_mould,
    look_words,
    sees_sign,
)
from logbook.growing.numbers import numbers_words
from logbook.growing.places import (
    Place,
    find_place,
    free_slots,
    lack_words,
    shelves_under,
    spread_over,
)
from logbook.growing.water import WaterReading, out_of_band
from logbook.store.reads_deeds import read_deeds
from logbook.store.tables import LookRow, WateringRow
from logbook.text import Refused, clean_note, listed
from logbook.ways import Way

Numbers = Sequence[int]


@dataclass(frozen=True, slots=True)
class Done:
    """What was written."""

    keys: ClassVar = "act=act_id entry=act_id trays=numbers words notices"

    words: str
    """What was done, in a sentence."""
    act_id: int
    """The first entry of the act; undo takes all of it back."""
    numbers: tuple[TrayNumber, ...]
    notices: tuple[str, ...] = ()
    """What is worth knowing, a sentence each."""
    mould: bool = False
    sign: bool = False


def _done(act: Act, words: str, numbers: Numbers, notices: Sequence[str] = ()) -> Done:
    assert act.act_id is not None  # noqa: S101 - something was written
    return Done(words, act.act_id, tuple(numbers), tuple(notices))


def _ids(trays: Sequence[Known]) -> list[int]:
    return [known.stored.id for known in trays]


def _one(values: set[int]) -> int | None:
    return next(iter(values)) if len(values) == 1 else None


def did(
    book: Book,
    chore: str,
    numbers: Numbers,
    at: datetime | None = None,
    *,
    amount_ml: float | None = None,
    ph: float | None = None,
    ec: float | None = None,
    place: str = "",
    note: str = "",
) -> Done:
    """Write that a chore was done on trays; all of them or none.

    `amount_ml` is water per tray, `ph` and `ec` (mS/cm) its quality: what lies outside a
    template's band is said. `place` is where trays were put with it (a sowing, or a move to
    the light).

    Raises:
        Refused: the chore does not fit a tray (the sentence says what would), or the time lies
            ahead, or before the tray came to where it is.
    """
    name = chore_named(chore)
    if amount_ml is not None and name != "water":
        raise Refused("An amount goes with water only.")
    if (ph is not None or ec is not None) and name != "water":
        raise Refused("pH and EC go with water only.")
    water = WaterReading(ph, ec, amount_ml)
    with book.writing() as act:
        when = act.moment(at, NOUNS[name].capitalize())
        trays = act.reading.trays(numbers)
        notices: list[str] = []
        what = WORDS[name]
        if name in ("soak", "sow"):
            notices += _before(act, name, trays, when, note, place)
        else:
            _growing(book, trays, when, NOUNS[name])
            if name in CHANGES:
                led = _as_of(act, trays, when)
                notices += _passed_over(name, led)
                lit, what = _change(act, name, led, when, note)
                notices += [] if place else _in_the_dark(act, lit)
            else:
                kind = "cut" if name == "cut" else name
                entry = act.entry(
                    kind, _ids(trays), when, chore=name, note=note, batch=_batch(trays)
                )
                if name == "water":
                    act.session.add(WateringRow(entry_id=entry, amount_ml=amount_ml, ph=ph, ec=ec))
                    notices += out_of_band(water, [known.template for known in trays])
            if place and name != "cut":
                _move(act, trays, place, when)
        words = f"{what}: {numbers_words(numbers)}, {moment_words(when, act.now, book.zone)}"
        return _done(act, words, numbers, notices)


def _batch(trays: Sequence[Known]) -> int | None:
    return _one({known.stored.batch_id for known in trays})


def _growing(book: Book, trays: Sequence[Known], when: datetime, what: str) -> None:
    for known in trays:
        if known.state.status == "planned":
            raise Refused(
                f"Tray {known.stored.number} is not sown yet; write that first: "
                f"{Way.DONE.of(f'sow {known.stored.number}')}."
            )
        sown = known.state.sown_at
        if sown is not None and when < sown:
            raise Refused(
                f"Tray {known.stored.number} was sown {moment_words(sown, book.now(), book.zone)}; "
                f"{what} cannot have been done before that."
            )


def _before(
    act: Act, name: str, trays: Sequence[Known], when: datetime, note: str, place: str
) -> list[str]:
    for known in trays:
        if known.state.status != "planned":
            raise Refused(f"Tray {known.stored.number} is sown already; there is no {name} to do.")
        if name == "soak" and known.template.mucilage:
            raise Refused(
                f"{known.template.label()} has mucilage: soaked, it turns to jelly. Sow it dry."
            )
        if name == "soak" and known.state.soaked_at is not None:
            raise Refused(f"The seed of tray {known.stored.number} is in the water already.")
    entry = act.entry(name, _ids(trays), when, chore=name, note=note, batch=_batch(trays))
    if name == "soak":
        return []
    places = act.reading.places
    shelves = [each for each in places if each.kind == "shelf" and not each.retired]
    asked = {known.state.place for known in trays}
    if place:
        wanted = shelves_under(find_place(place, places), places)
    else:
        wanted = [shelf for shelf in shelves if shelf.id in asked]
    dark = trays[0].template.stages[0].light == "dark"
    others = sorted(
        (shelf for shelf in shelves if shelf not in wanted),
        key=lambda shelf: (shelf.lit if dark else not shelf.lit, shelf.walk),
    )
    spread = spread_over(len(trays), wanted, others, act.reading.taken)
    place_trays(act, entry, _ids(trays), spread.spots)
    return list(spread.notices)


def _change(
    act: Act, name: str, trays: Sequence[Known], when: datetime, note: str
) -> tuple[list[Known], str]:
    """Write a change between stages of trays as they were `when` it happened.

    Gives the trays that it leads out of the dark, and its words.
    """
    groups: dict[int, list[Known]] = {}
    for known in trays:
        target = stage_for_chore(known.template, known.state, name)
        if target is None:
            raise Refused(_no_change(known, name))
        since = known.state.stage_since
        if since is not None and when < since:
            stage = known.template.stages[known.state.stage].name
            raise Refused(
                f'Tray {known.stored.number} came into "{stage}" '
                f"{moment_words(since, act.now, act.reading.zone)}; {WORDS[name]} cannot have been "
                "done before that."
            )
        groups.setdefault(target, []).append(known)
    for target, group in sorted(groups.items()):
        act.entry(
            "change",
            _ids(group),
            when,
            chore=change_into(group[0].template, target).chore,
            stage=target,
            note=note,
            batch=_batch(group),
        )
    lit = [
        known
        for target, group in groups.items()
        for known in group
        if known.template.stages[target].light == "lit"
        and known.template.stages[known.state.stage].light == "dark"
    ]
    words = {
        words_into([known.template for known in group], target, name)
        for target, group in groups.items()
    }
    return lit, words.pop() if len(words) == 1 else WORDS[name]


def _passed_over(name: str, trays: Sequence[Known]) -> list[str]:
    """Say which changes lay between the stage of the trays and the one they are led to."""
    passed: dict[str, list[int]] = {}
    for known in trays:
        target = stage_for_chore(known.template, known.state, name) or 0
        for stage in range(known.state.stage + 1, target):
            change = change_into(known.template, stage)
            if change.parts:
                passed.setdefault(change.words, []).append(known.stored.number)
    return [
        f"Left out on the way: {words} ({numbers_words(numbers)}). If it was done, undo this and "
        "write it first."
        for words, numbers in passed.items()
    ]


def _in_the_dark(act: Act, trays: Sequence[Known]) -> list[str]:
    """Say which of the trays that went to the light stand on a shelf with no lamp hours."""
    dark: dict[str, list[int]] = {}
    for place in act.reading.places:
        if not place.lit:
            mine = [known.stored.number for known in trays if known.state.place == place.id]
            dark.update({place.path: mine} if mine else {})
    return [
        f"In the dark, for {path} has no lamp hours: {numbers_words(numbers)}. "
        f"{Way.MOVE} takes trays to a lit shelf."
        for path, numbers in dark.items()
    ]


def _as_of(act: Act, trays: Sequence[Known], when: datetime) -> list[Known]:
    """Give trays that went on by themselves after `when` in the stage that they had then."""
    deeds = read_deeds(act.reading, _ids(trays))
    found = []
    for known in trays:
        mine = deeds[known.stored.id]
        put_there = max((deed.at for deed in mine if deed.kind in ("sow", "change")), default=when)
        before = [deed for deed in mine if deed.at <= when]
        found.append(
            replace(known, state=fold_tray(known.template, before, act.reading.hours, when))
            if put_there <= when
            else known
        )
    return found


def _no_change(known: Known, name: str) -> str:
    state, template = known.state, known.template
    stage = template.stages[state.stage].name
    ahead = [
        change_into(template, place).words
        for place in range(state.stage + 1, len(template.stages))
        if change_into(template, place).parts
    ]
    rest = f"Ahead of it: {listed(ahead)}; then the cut." if ahead else "Only the cut is ahead."
    return f'Tray {known.stored.number} is in "{stage}" and has no "{WORDS[name]}" ahead. {rest}'


def skip(book: Book, chore: str, numbers: Numbers, why: str) -> Done:
    """Leave a chore out this time, with the reason.

    Water and look come again at their next time; everything else is asked again tomorrow.
    """
    name = chore_named(chore)
    why = clean_note(why)
    if not why:
        raise Refused("Say why it is skipped; a word is enough.")
    with book.writing() as act:
        trays = act.reading.trays(numbers)
        groups: dict[tuple[str, int | None], list[Known]] = {}
        words = set()
        for known in trays:
            chore_left, stage, what = _skipped_chore(known, name)
            groups.setdefault((chore_left, stage), []).append(known)
            words.add(what)
        for (chore_left, stage), group in groups.items():
            act.entry(
                "skip", _ids(group), chore=chore_left, stage=stage, note=why, batch=_batch(group)
            )
        said = words.pop() if len(words) == 1 else WORDS[name]
        return _done(act, f"skipped {said}: {numbers_words(numbers)}", numbers)


def _skipped_chore(known: Known, name: str) -> tuple[str, int | None, str]:
    """Give the chore that a skip leaves out, the stage it would lead into, and all of it in words.

    A change goes by its most telling part; what is no change leads into no stage.
    """
    state: TrayState = known.state
    planned = state.status == "planned"
    if planned != (name in ("soak", "sow")):
        raise Refused(
            f"Tray {known.stored.number} is {'not sown yet' if planned else 'sown already'}; "
            f"there is no {WORDS[name]} to skip."
        )
    if name not in CHANGES:
        return name, None, WORDS[name]
    following = (
        (stage, change_into(known.template, stage))
        for stage in range(state.stage + 1, len(known.template.stages))
    )
    upcoming = next((each for each in following if each[1].parts), None)
    if upcoming is None or name not in upcoming[1].parts:
        rest = f"; next is {upcoming[1].words}" if upcoming is not None else ""
        raise Refused(f'Tray {known.stored.number} has no "{WORDS[name]}" before it to skip{rest}.')
    stage, change = upcoming
    return change.chore, stage, change.words


def look(
    book: Book, numbers: Numbers, seen: Look, note: str = "", at: datetime | None = None
) -> Done:
    """Write what was seen on trays. Only what is filled is kept.

    Mould brings the caution; a sign to cut makes the cut due.
    """
    seen = checked_look(seen)
    note = clean_note(note)
    with book.writing() as act:
        when = act.moment(at, "A look")
        trays = act.reading.trays(numbers)
        _growing(book, trays, when, "a look")
        signs: dict[bool, list[Known]] = {}
        for known in trays:
            signs.setdefault(sees_sign(seen, known.template.sign_to_cut), []).append(known)
        for sign, group in signs.items():
            entry = act.entry(
                "look", _ids(group), when, chore="look", note=note, batch=_batch(group)
            )
            if not seen.empty:
                act.session.add(LookRow(entry_id=entry, sign_seen=sign, **asdict(seen)))
        words = look_words(seen, book.units) or note or "looked at"
        notices = [MOULD_CAUTION] if has_mould(seen) else []
        saw = any(signs.get(True, ()))
        if saw:
            notices.append(f"The sign to cut was seen: {numbers_words(numbers)} can be cut now.")
        done = _done(act, f"look: {numbers_words(numbers)}: {words}", numbers, notices)
        return Done(done.words, done.act_id, done.numbers, done.notices, has_mould(seen), saw)


def jot(book: Book, numbers: Numbers, text: str, place: str = "") -> Done:
    """Write a free note on trays (cut ones too) or on a place, or on the room as a whole."""
    note = clean_note(text)
    if not note:
        raise Refused("There is nothing to jot: the note is empty.")
    with book.writing() as act:
        trays = act.reading.trays(numbers, live=False) if numbers else []
        spot = act.reading.places.find(place) if place else None
        act.entry(
            "jot", _ids(trays), act.done_now, note=note, batch=_batch(trays),
            place=spot.id if spot else None,
        )  # fmt: skip
        where = numbers_words(numbers) or (spot.path if spot else "the room")
        return _done(act, f"jotted on {where}", numbers)


def move(book: Book, numbers: Numbers, place: str, at: datetime | None = None) -> Done:
    """Move growing trays to free slots of a place; "Rack 1/Shelf 2/3" names a slot.

    Raises:
        Refused: there is no such place, or no room on it.
    """
    with book.writing() as act:
        when = act.moment(at, "A move")
        trays = act.reading.trays(numbers)
        _growing(book, trays, when, "a move")
        path = _move(act, trays, place, when)
        return _done(act, f"moved {numbers_words(numbers)} to {path}", numbers)


def slot_named(text: str, places: Sequence[Place]) -> tuple[Place, int | None]:
    """Find a place, and the slot where the text names one: "Rack 1/Shelf 2/3"."""
    head, _, tail = text.rpartition("/")
    if head and re.fullmatch(r"\s*\d{1,6}\s*", tail):
        try:
            place = find_place(head, places)
        except Refused:
            return find_place(text, places), None
        if place.kind == "shelf":
            return place, int(tail)
    return find_place(text, places), None


def chosen_spots(
    act: Act, trays: Sequence[Known], text: str
) -> tuple[Place, tuple[tuple[int, int] | None, ...]]:
    """Find the place of a text and a free spot on it (place id, slot) for each tray.

    Raises:
        Refused: there is no such place, or no room on it.
    """
    places = act.reading.places
    place, slot = slot_named(text, places)
    shelves = shelves_under(place, places)
    moving = set(_ids(trays))
    staying = [known for known in act.reading.live if known.stored.id not in moving]
    taken = taken_slots(staying)
    if slot is not None:
        if len(trays) > 1:
            raise Refused("A slot takes one tray; name the shelf for several.")
        free = free_slots(place, taken)
        if slot not in free:
            if not 1 <= slot <= place.slots:
                raise Refused(f"{place.path} has no slot {slot}; its slots are 1 to {place.slots}.")
            rest = f"Free: {listed([str(each) for each in free])}." if free else "It is full."
            raise Refused(f"Slot {slot} of {place.path} is not free. {rest}")
        return place, ((place.id, slot),)
    spots = spread_over(len(trays), shelves, (), taken).spots
    if None in spots:
        room = sum(len(free_slots(shelf, taken)) for shelf in shelves)
        free_words = [
            f"{shelf.path} ({len(free_slots(shelf, taken))})"
            for shelf in places
            if shelf.kind == "shelf" and not shelf.retired and free_slots(shelf, taken)
        ]
        rest = f"Free slots: {listed(free_words)}." if free_words else "Every shelf is full."
        raise Refused(f"{lack_words([place.path], room, len(trays))} {rest}")
    return place, spots


def _move(act: Act, trays: Sequence[Known], text: str, when: datetime) -> str:
    place, spots = chosen_spots(act, trays, text)
    entry = act.entry("move", _ids(trays), when, batch=_batch(trays))
    place_trays(act, entry, _ids(trays), spots)
    if place.kind == "shelf":
        return place.path
    came = {spot[0] for spot in spots if spot is not None}
    return listed([each.path for each in act.reading.places if each.id in came])


def discard(book: Book, numbers: Numbers, why: str, at: datetime | None = None) -> Done:
    """Discard trays, with the reason; they leave the rack."""
    why = clean_note(why)
    if not why:
        raise Refused("Say why it is discarded; a word is enough.")
    with book.writing() as act:
        when = act.moment(at, "A discard")
        trays = act.reading.trays(numbers)
        for known in trays:
            sown = known.state.sown_at
            if sown is not None and when < sown:
                _growing(book, [known], when, "a discard")
        act.entry("discard", _ids(trays), when, note=why, batch=_batch(trays))
        return _done(act, f"discarded: {numbers_words(numbers)}", numbers)
