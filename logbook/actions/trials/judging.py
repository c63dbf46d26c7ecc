"""Judging a trial of the book: all that is known of it is gathered in one reading, then judged."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trials.finding import find_trial
from logbook.actions.trials.surroundings import surroundings_of
from logbook.growing.quantities import USUAL_SPREAD
from logbook.growing.room.places import Place
from logbook.growing.trays.life import TrayState, pass_by
from logbook.growing.trials.arms import RoomSpread, room_spread
from logbook.growing.trials.kept import (
    Answer,
    Decision,
    Happenings,
    Tasting,
    Trial,
    TrialTray,
    TriangleTest,
)
from logbook.growing.trials.money import Prices
from logbook.growing.trials.record import TrayRecord, stage_hours
from logbook.growing.trials.tasted import tasting_result
from logbook.growing.trials.view import TrialFacts, TrialView, judged_view
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.templates import template_of_versions
from logbook.store.reads.trays import read_trays
from logbook.store.reads.trials import (
    read_criteria,
    read_happenings,
    read_said,
    read_single_weights,
    read_trial_trays,
)


def judge_trial(
    book: Book, name: str, spread: float | None = None, prices: Prices | None = None
) -> TrialView:
    """Judge a trial as it stands; raise Refused for no such trial, or a spread that cannot be.

    `spread` is that from tray to tray in %, where the grower knows better than the book.
    """
    if spread is not None:
        USUAL_SPREAD.checked(spread)
    with book.reading() as reading:
        trial = find_trial(name, reading)
        facts = _facts(reading, trial)
    return judged_view(facts, spread, prices or Prices())


def _facts(reading: Reading, trial: Trial) -> TrialFacts:
    mine = read_trial_trays(reading, trial.id)
    tastings = read_said(reading, Tasting, trial.id)
    tasting = None
    if tastings:
        answers = read_said(reading, Answer, tastings[-1].id)
        tasting = tasting_result(trial, tastings[-1], len(tastings), answers)
    said_at, weights = read_criteria(reading, trial.id)
    return TrialFacts(
        trial=trial, template=reading.version(trial.version_id),
        records=_records(reading, trial, mine),
        spread=spread_of_room(reading, trial.version_id, [tray.tray_id for tray in mine]),
        tasting=tasting, triangles=tuple(read_said(reading, TriangleTest, trial.id)),
        said_at=said_at, weights=weights, decisions=tuple(read_said(reading, Decision, trial.id)),
        zone=reading.zone, money=reading.about.money,
    )  # fmt: skip


def _records(reading: Reading, trial: Trial, mine: Sequence[TrialTray]) -> tuple[TrayRecord, ...]:
    """A record of every tray of a trial, by run, block and number."""
    ids = [tray.tray_id for tray in mine]
    recorded = tray_records(reading, ids)
    version_of = {tray.id: tray.version_id for tray in read_trays(reading, ids)}
    lines = lines_of(reading, trial, set(version_of.values()))
    blocks = {block: reading.places.by_id[place].path for block, place in trial.shelves}
    in_weeks = trial.blocks == "week" or len({tray.run for tray in mine}) > 1
    records = []
    for tray in mine:
        one = recorded[tray.tray_id]
        parts = (blocks.get(tray.block_id or 0, ""), f"week {tray.run}" if in_weeks else "")
        own = lines(version_of[tray.tray_id], tray.arm_id)
        records.append(
            replace(
                one, arm=trial.arm(tray.arm_id).name, joined_at=tray.at, run=tray.run,
                block=", ".join(part for part in parts if part),
                left_out=_left_out(tray, one.state, one.said),
                strange="" if own else one.template.name,
            )
        )  # fmt: skip
    return tuple(sorted(records, key=lambda record: (record.run, record.block, record.number)))


def tray_records(reading: Reading, trays: Sequence[int]) -> dict[int, TrayRecord]:
    """All that was recorded of trays, by their ids; each is an arm of its own, called by its number."""
    deeds, happened = read_deeds(reading, trays), read_happenings(reading, trays)
    around, places, now = surroundings_of(reading, trays), reading.places.by_id, reading.now
    stored = read_trays(reading, trays)
    versions = reading.versions({tray.version_id for tray in stored})
    found = {}
    for kept in stored:
        template, its_deeds = versions[kept.version_id], deeds.get(kept.id, [])
        folded, hours = reading.fold(template, its_deeds, {})
        state = pass_by(folded, template, now)
        place = places.get(state.place or 0)
        found[kept.id] = TrayRecord(
            number=kept.number, name=kept.name, arm=str(kept.number), template=template,
            state=state, joined_at=state.sown_at or now, lot=kept.lot,
            seed_grams=template.seed_for(kept.grams_per_tray), grams=state.cut_grams,
            stage_hours=stage_hours(template, its_deeds, hours, now),
            place=place.path if place else "", on_shelf=_on_shelf(place, state.slot),
            around=around[kept.id], said=happened[kept.id],
        )  # fmt: skip
    return found


def lines_of(
    reading: Reading, trial: Trial, versions: Collection[int]
) -> Callable[[int, int], bool]:
    """Whether a template version (id) is of the trial's template or of its arm's (id) variant."""
    own = {arm.id: arm.version_id or trial.version_id for arm in trial.arms}
    lines = template_of_versions(reading, {*versions, trial.version_id, *own.values()})
    return lambda version, arm: lines[version] in (lines[trial.version_id], lines[own[arm]])


def _on_shelf(place: Place | None, slot: int | None) -> str:
    """Where along its shelf a slot is: the light is weaker at the ends (common practice, no source)."""
    if place is None or slot is None:
        return "no slot"
    return "an end slot" if slot in (1, place.slots) else "a middle slot"


def _left_out(tray: TrialTray, state: TrayState, said: Happenings) -> str:
    if tray.left_out:
        return tray.left_out
    if state.status == "void":
        return "its sowing was struck out"
    if state.status == "discarded":
        return f"{state.status.words}: {said.discarded}" if said.discarded else state.status.words
    if said.shared:
        return "weighed together with others, so its own weight is not known"
    return ""


def spread_of_room(reading: Reading, version_id: int, leave: Collection[int] = ()) -> RoomSpread:
    """The spread from tray to tray of a crop in this room, else the template's.

    `leave` are ids of trays that must not count, such as those of the trial itself.
    """
    template_id = template_of_versions(reading, [version_id])[version_id]
    singly = read_single_weights(reading, template_id, leave)
    return room_spread(singly, reading.version(version_id).spread_percent)
