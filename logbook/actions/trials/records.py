"""Gathering all that the book holds of a trial's trays."""

from __future__ import annotations

from logbook.actions.reading import Reading
from logbook.actions.trials.surroundings import surroundings_of
from logbook.growing.trays.life import TrayState, pass_by
from logbook.growing.trials.kept import Happenings, Trial, TrialTray
from logbook.growing.trials.record import TrayRecord, stage_hours
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.trays import read_trays
from logbook.store.reads.trials import read_happenings, read_trial_trays


def records_of(reading: Reading, trial: Trial) -> tuple[TrayRecord, ...]:
    """A record of every tray of a trial, by run, block and number."""
    mine = read_trial_trays(reading, trial.id)
    ids = [tray.tray_id for tray in mine]
    stored = {tray.id: tray for tray in read_trays(reading, ids)}
    versions = reading.versions({tray.version_id for tray in stored.values()})
    deeds = read_deeds(reading, ids)
    happened = read_happenings(reading, ids)
    around = surroundings_of(reading, ids)
    places = reading.places.by_id
    blocks = {block: places[place].path for block, place in trial.shelves}
    in_weeks = trial.blocks == "week" or len({tray.run for tray in mine}) > 1
    now = reading.now
    records = []
    for tray in mine:
        kept = stored[tray.tray_id]
        template = versions[kept.version_id]
        its_deeds = deeds.get(tray.tray_id, [])
        folded, hours = reading.fold(template, its_deeds)
        state = pass_by(folded, template, now)
        said = happened[tray.tray_id]
        place = places.get(state.place or 0)
        parts = (blocks.get(tray.block_id or 0, ""), f"week {tray.run}" if in_weeks else "")
        records.append(
            TrayRecord(
                number=kept.number,
                arm=trial.arm(tray.arm_id).name,
                template=template,
                state=state,
                block=", ".join(part for part in parts if part),
                run=tray.run,
                colour=kept.colour,
                lot=kept.lot,
                seed_grams=template.seed_for(kept.grams_per_tray),
                grams=state.grams if state.status == "cut" else None,
                shared=said.shared,
                left_out=_left_out(tray, state, said),
                stage_hours=stage_hours(template, its_deeds, hours, now),
                waterings=said.waterings,
                water_ml=None if said.without_amount else said.water_ml,
                place=place.path if place else "",
                around=around[tray.tray_id],
                sown_by=said.sown_by,
                cut_by=said.cut_by,
                height_mm=said.height_mm,
                stems=tuple(said.stems),
            )
        )
    return tuple(sorted(records, key=lambda record: (record.run, record.block, record.number)))


def _left_out(tray: TrialTray, state: TrayState, said: Happenings) -> str:
    if tray.left_out:
        return tray.left_out
    if state.status == "void":
        return "its sowing was struck"
    if state.status == "discarded":
        return f"{state.status.words}: {said.discarded}" if said.discarded else state.status.words
    if said.shared:
        return "weighed together with others, so its own weight is not known"
    return ""
