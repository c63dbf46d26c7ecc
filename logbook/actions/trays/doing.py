"""Chores that are done on trays, and those that are skipped."""

from collections.abc import Sequence
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.orders.shortages import Shortages
from logbook.actions.seed.drawing import NO_LOT, lots_drawn, seed_of
from logbook.actions.trays import done
from logbook.actions.trays.dark import dark_notices
from logbook.actions.trays.entry_says import measured_words
from logbook.actions.trays.lots import planned_lots
from logbook.actions.trays.moving import put_on
from logbook.actions.trays.numbering import take_numbers
from logbook.actions.trays.placing import (
    crowded,
    place_trays,
    placed_words,
    shelves_named,
    spread_for,
)
from logbook.actions.trays.sowing import write_lots
from logbook.actions.trays.stage_changes import as_of, change_stage, passed_over
from logbook.actions.writing import Act
from logbook.growing.crops.seed_lots import lots_from, lots_grams, lots_words
from logbook.growing.kinds import KINDS
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.quantities import SEED
from logbook.growing.room.water import WaterReading, out_of_band
from logbook.growing.trays.chores import (
    BOTH,
    CHANGES,
    NOUNS,
    WORDS,
    change_into,
    chore_named,
    parts_of,
)
from logbook.growing.trays.life import TrayState
from logbook.growing.trays.soaking import Soaked, check_soaked, refuse_gelling, soak_notice
from logbook.growing.trays.tray_now import TrayNow, refuse_held
from logbook.growing.trays.weighing import refuse_both
from logbook.text import Refused, clean_reason


def did(
    book: Book, chore: str, numbers: done.Numbers, at: datetime | None = None, *,
    amount_ml: float | None = None, ph: float | None = None, ec: float | None = None,
    place: str = "", soaked: Soaked | None = None, lot: str | None = None, part: bool = False,
    keep: bool = False, note: str = "",
) -> done.Done:  # fmt: skip
    """Write that a chore was done on trays; all of them or none.

    `amount_ml` is water per tray, `ph` and `ec` (mS/cm) its quality: what lies outside a
    template's band is said. `place` is where trays were put with it (a sowing, or a move to
    the light), `soaked` what is said of the soak of seed that is sown: "now" soaks it only.
    `lot` is what seed is sown from, as SowDraft has it; None: as planned. A cut, which is not
    weighed here, ends a tray, but for a `part` of its harvest, or a `keep` that lets it grow again.

    Raises Refused where the chore does not fit a tray (the sentence says what would), or the time
    lies ahead, or before the tray came to where it is.
    """
    name = chore_named(chore)
    waters = name in ("water", BOTH)
    if amount_ml is not None and not waters:
        raise Refused("Only water takes an amount.")
    if (ph is not None or ec is not None) and not waters:
        raise Refused("Only water takes pH and EC.")
    if soaked is not None and name != "sow":
        raise Refused("Only sow takes a soak.")
    if lot is not None and name != "sow":
        raise Refused("Only sow takes a seed lot.")
    if (part or keep) and name != "cut":
        raise Refused("Only a cut can be a part cut, or keep a tray growing.")
    refuse_both(part, keep)
    lots_from(lot or "", book.units)
    notices: list[str] = []
    put: list[str] = []
    if soaked == "now":  # the sowing comes after it
        name, soaked = "soak", None
        notices += ["The seed lot is entered when the tray is sown."] if lot else []
    water = WaterReading(ph, ec, amount_ml)
    with book.writing() as act:
        when = act.moment(at, NOUNS[name].capitalize())
        trays = act.reading.trays(numbers, at=None if place or name == "cut" else when)
        if name in ("soak", "sow", "cut"):
            other = lot is not None and name == "sow"
            refuse_held([t for t in trays if not (other and t.held and t.held.on.seed_lot)], when)
        lit: list[TrayNow] = []
        what = WORDS[name]
        if name in ("soak", "sow"):
            before = done.numbers_of(trays)
            trays = take_numbers(act, trays)
            if new := set(done.numbers_of(trays)).difference(before):
                waited = set(before).difference(done.numbers_of(trays))
                notices.append(f"Tape for {numbers_words(waited)}: {numbers_words(new)}.")
            apart = name == "sow" and lot is None  # each batch draws on a bag of its own crop
            for batch in dict.fromkeys(t.stored.batch_id if apart else 0 for t in trays):
                mine = [t for t in trays if not apart or t.stored.batch_id == batch]
                notices += _before(act, name, mine, when, note, place, soaked, lot, put)
        else:
            done.refuse_unsown(act, trays, when, NOUNS[name])
            if name in CHANGES:
                shortages = Shortages(act.reading, trays, changed=True)
                led = as_of(act, trays, when)
                notices += passed_over(name, led)
                lit, what = change_stage(act, name, led, when, note)
            else:
                kind = "cut_part" if part else "cut_keep" if keep else "water" if waters else name
                what = KINDS[kind].done if part or keep else what
                answered = "water" if waters else name
                entry = done.entry_on(act, kind, trays, when, chore=answered, note=note)
                if name == BOTH:
                    done.entry_on(act, "glance", trays, when, chore="look")
                if waters:
                    act.put("watering", entry, amount_ml=amount_ml, ph=ph, ec=ec)
                    notices += out_of_band(water, [known.template for known in trays])
            if place and name != "cut":
                put_on(act, as_of(act, trays, when), place, when)
            after = act.reading
            names = [known.name for known in lit]
            notices += dark_notices(after, after.trays(names, at=when))
            if name in CHANGES:
                notices += [*crowded(after, trays), *shortages.made_by(act)]
        numbers = done.numbers_of(trays)
        said = (act.reading.when(when), measured_words(water, book.units))
        words = ", ".join(filter(None, (f"{what}: {numbers_words(numbers)}", *said, *put)))
        return done.done_of(act, words, numbers, notices)


def unsaid_soak(book: Book, numbers: done.Numbers) -> int:
    """The soak by template (s) of planned trays of whose soak nothing is said yet; 0 for none."""
    with book.reading() as reading:
        trays = reading.trays(numbers)
    waiting = [each for each in trays if each.state.status == "planned"]
    return max(
        (each.template.soak_seconds for each in waiting if each.state.soaked_at is None), default=0
    )


def _before(
    act: Act, name: str, trays: Sequence[TrayNow], when: datetime, note: str, place: str,
    soaked: Soaked | None, lot: str | None, put: list[str],
) -> list[str]:  # fmt: skip
    """Write a soak or a sowing, and what to say of it; `put` takes where trays are put by it."""
    for known in trays:
        if known.state.status != "planned":
            raise Refused(f"Tray {known.number} is sown already; there is no {name} to do.")
        begun = known.state.soaked_at
        if begun is not None and (name == "soak" or isinstance(soaked, datetime)):
            raise Refused(f"The seed of tray {known.number} is already soaking.")
        if begun is not None and when < begun:
            raise Refused(
                f"The seed of tray {known.number} went into the water "
                f"{known.when(begun)}; it cannot have been sown before that."
            )
        if name == "soak":
            refuse_gelling(known.template)
        elif isinstance(soaked, datetime):
            check_soaked(known.template, soaked, when)
    if isinstance(soaked, datetime):
        done.entry_on(act, "soak", trays, soaked, chore="soak")
    batch, spelled = done.batch_of(trays), list[str]()
    if name != "soak":
        batch, spelled = _batch_from(act, trays, lot)
    entry = act.entry(name, done.ids_of(trays), when, chore=name, note=note, batch=batch)
    if name == "soak":
        return []
    told = soaked if isinstance(soaked, datetime) else None
    said = [soak_notice(known.template, known.state.soaked_at or told, when) for known in trays]
    reading, asked = act.reading, {known.state.place for known in trays}
    wanted = (
        shelves_named(reading, place)
        if place
        else [shelf for shelf in reading.places.shelves if shelf.id in asked]
    )
    spread = spread_for(reading, wanted, trays[0].template, len(trays))
    place_trays(act, entry, done.ids_of(trays), spread.spots)
    shelves = [spot[0] if spot else None for spot in spread.spots]
    if shelves != [known.state.place for known in trays]:
        put += placed_words(done.numbers_of(trays), map(reading.places.path, shelves))
    return [*spread.notices, *spelled, *dict.fromkeys(filter(None, said))]


def _batch_from(
    act: Act, trays: Sequence[TrayNow], lot: str | None
) -> tuple[int | None, list[str]]:
    """The batch of planned trays that are sown from lots: a new one where others were planned.

    With it what to say of the lots. None are the planned lots, where there are none the bag that
    was bought first.
    """
    reading, stored = act.reading, trays[0].stored
    if done.batch_of(trays) is None:
        raise Refused("These trays are from more than one batch; give the seed lot of each.")
    planned = planned_lots(reading, trays)
    if lot is None:
        lot = lots_words(planned, reading.units)
    elif not lot:
        lot = NO_LOT
    lots, spelled = lots_drawn(reading, lot, trays[0].crop, seed_of(trays))
    if lots_words(lots) == lots_words(planned):
        return stored.batch_id, [*spelled]
    taken = lots_grams(lots)
    grams = stored.grams_per_tray if taken is None else SEED.checked(taken / len(trays))
    batch = write_lots(
        act,
        lots,
        version_id=stored.version_id,
        grams_per_tray=grams,
        planned_for=stored.planned_for,
    )
    return batch, [*spelled]


def skip(book: Book, chore: str, numbers: done.Numbers, why: str) -> done.Done:
    """Leave a chore out, with the reason: water and look to their next time, others to tomorrow."""
    name = chore_named(chore)
    why = clean_reason(why)
    with book.writing() as act:
        trays = act.reading.trays(numbers, at=act.done_now)
        done.refuse_before_sowing(act, trays, act.done_now, "a skip")
        groups: dict[tuple[str, int | None], list[TrayNow]] = {}
        words = set()
        for known in trays:
            for each in parts_of(name):
                chore_left, stage, what = _skipped_chore(known, each)
                groups.setdefault((chore_left, stage), []).append(known)
                words.add(what)
        for (chore_left, stage), group in groups.items():
            done.entry_on(act, "skip", group, chore=chore_left, stage=stage, note=why)
        numbers = done.numbers_of(trays)
        said = words.pop() if len(words) == 1 else WORDS[name]
        return done.done_of(act, f"skipped {said}: {numbers_words(numbers)}", numbers)


def _skipped_chore(known: TrayNow, name: str) -> tuple[str, int | None, str]:
    """The chore that a skip leaves out, the stage it would lead into, and all of it in words.

    A change goes by its most telling part; what is no change leads into no stage.
    """
    state: TrayState = known.state
    planned = state.status == "planned"
    if planned != (name in ("soak", "sow")):
        raise Refused(
            f"Tray {name_words(known.number)} is {'not sown yet' if planned else 'sown already'}; "
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
        raise Refused(f'Tray {known.number} has no "{WORDS[name]}" before it to skip{rest}.')
    stage, change = upcoming
    return change.chore, stage, change.words
