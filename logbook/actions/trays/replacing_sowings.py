"""Moves, sowings and plans in another's place: where the trays stand, and of which batch they are."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from logbook.actions.crops.templates import find_template
from logbook.actions.trays.entry_times import soaks_with
from logbook.actions.trays.lots import lots_named, planned_lots
from logbook.actions.trays.moving import chosen_spots, slot_named
from logbook.actions.trays.placing import place_trays
from logbook.actions.trays.replacement import Notices, Replacement
from logbook.actions.trays.sowing import write_lots
from logbook.actions.trays.striking import write_strike
from logbook.growing.crops.seed_lots import lots_grams
from logbook.growing.quantities import SEED
from logbook.growing.trays.soaking import SOAK_BY_TEMPLATE
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import read_root
from logbook.store.reads.said import read_spots
from logbook.store.reads.templates import read_templates
from logbook.text import Refused, listed
from logbook.ways import Way

Batch = tuple[int, int]
"""A batch and its template version (ids)."""


class MoveReplacement(Replacement):
    """A move; where nothing moved its trays since, they stand in the new place."""

    def write(self) -> tuple[int, Notices]:
        """Write it."""
        return self.put(None), []

    def put(self, batch: Batch | None) -> int:
        """Write the entry with its trays where they are put, or where they were."""
        spots, batch_id = self._spots(), batch[0] if batch else None
        if spots is None:
            return self.copy(batch_id)
        new = self.write_entry(batch=batch_id)
        place_trays(self.act, new, self.ids, spots)
        return new

    def _spots(self) -> Sequence[tuple[int | None, int | None] | None] | None:
        """The spots of the trays where they change; None where they stay as they were."""
        places, text = self.reading.places, self.changes.place
        if text is None:
            if not self.other_trays:
                return None
            spots = read_spots(self.reading, [self.entry.id]).get(self.entry.id, [])
            was = {spot.place_id for spot in spots}
            paths = [place.path for place in places if place.id in was]
            if len(paths) != 1:
                raise Refused("Say where these trays were put: give the place too.")
            text = paths[0]
        if self.entry.kind != "plan" and self._still_there():
            return chosen_spots(self.reading, self.trays, text)[1]
        place, slot = slot_named(text, places)
        shelves = places.under(place)
        if not shelves:
            raise Refused(f"{place.path} has no shelf; name a shelf.")
        return [(shelves[0].id, slot if len(self.ids) == 1 else None)] * len(self.ids)

    def _still_there(self) -> bool:
        """Whether the trays still stand where this entry put them: nothing moved them since."""
        mine = (self.at, read_root(self.reading, self.entry.id))
        deeds = read_deeds(self.reading, self.ids)
        growing = all(known.state.status == "growing" for known in self.trays)
        return (growing or self.entry.kind == "sow") and not any(
            (deed.kind == "move" or deed.ends) and (deed.at, deed.entry) > mine
            for each in deeds.values()
            for deed in each
        )


class SowingReplacement(MoveReplacement):
    """A sowing; another lot, template or weight of seed makes another batch of its trays."""

    said: tuple[str, ...] = ()
    """What to say of the spelling of its lots."""

    def write(self) -> tuple[int, Notices]:
        """Write it, and the soak that goes with it."""
        batch = self.batch(None)
        self._soak_too(batch)
        return self.put(batch), [*self.said]

    def batch(self, ahead: datetime | None) -> Batch | None:
        """Write the batch that a corrected sowing makes of its trays, if it makes another."""
        changes = self.changes
        if changes.grams is None and changes.lot is None and changes.template is None and not ahead:
            return None
        batches = {known.stored.batch_id for known in self.trays}
        if len(batches) != 1:
            raise Refused(
                "These trays are from more than one batch, "
                f"{listed([str(each) for each in sorted(batches)])}; strike it out and sow each "
                "again."
            )
        stored = self.trays[0].stored
        version, grams = stored.version_id, stored.grams_per_tray
        if changes.template is not None:
            found = find_template(changes.template, read_templates(self.reading))
            version = found.version_id
            self._check_stages(len(found.template.stages), found.template.name)
        if changes.lot is None:
            lots = planned_lots(self.reading, self.trays)
        else:
            lots, self.said = lots_named(self.reading, changes.lot)
            taken = lots_grams(lots)
            grams = grams if taken is None else taken / len(self.trays)
        grams = grams if changes.grams is None else changes.grams
        grams = None if grams is None else SEED.checked(grams)
        said = {"grams_per_tray": grams, "planned_for": ahead or stored.planned_for}
        return write_lots(self.act, lots, version_id=version, **said), version

    def _check_stages(self, count: int, name: str) -> None:
        for deeds in read_deeds(self.reading, self.ids).values():
            highest = max((deed.stage or 0 for deed in deeds), default=0)
            if highest >= count:
                raise Refused(
                    f'These trays have gone through {highest + 1} stages; "{name}" has {count}. '
                    "First strike out the changes that were not made."
                )

    def _soak_too(self, batch: Batch | None) -> None:
        """Let a soak that was reckoned from this sowing follow it; one that was said stays."""
        for soak in soaks_with(self.reading, self.entry):
            new = self.trays[0].template
            if batch is not None:
                new = self.reading.version(batch[1])
            reckoned = soak.note == SOAK_BY_TEMPLATE
            stays = new.soak_seconds > 0 or not reckoned
            at = self.at - timedelta(seconds=new.soak_seconds) if reckoned else soak.at
            if at > self.at:
                began = self.trays[0].when(soak.at)
                raise Refused(
                    f"The soak began {began}, after that; strike or change entry {soak.id} first."
                )
            if stays and at == soak.at:
                continue
            write_strike(self.act, soak, f"with entry {self.entry.id}")
            if stays:
                self.act.entry(
                    "soak", soak.tray_ids, at, note=soak.note, chore="soak", batch=soak.batch_id,
                    strikes=soak.id,
                )  # fmt: skip


class PlanReplacement(SowingReplacement):
    """A plan; its time is the one that is planned."""

    def moment(self) -> datetime:
        """When it was written: what changes is the time that is planned."""
        return self.entry.at

    def write(self) -> tuple[int, Notices]:
        """Write it; raises Refused for a time that is past."""
        ahead = self.changes.at
        if ahead is not None and ahead <= self.act.now:
            raise Refused(
                f"A plan must be for later; {Way.DONE.of('sow')} writes what was sown already."
            )
        return self.put(self.batch(ahead)), [*self.said]
