"""A reading: one moment of the book, and the room as it was then."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cached_property
from typing import NamedTuple
from zoneinfo import ZoneInfo

from logbook.actions.trays.named import trays_named
from logbook.clock import Clock
from logbook.growing.crops.conditions import (
    MOST_TRAYS,
    NEWEST,
    NONE,
    NOTHING,
    Conditions,
    Shifts,
    Weighed,
    frequent,
    learnt,
    monday_of,
)
from logbook.growing.crops.luck import Luck
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.crops.yields import Expected, Meant, expect, luck_of_harvest
from logbook.growing.days import day_of, moment_words, wall
from logbook.growing.measures import Units
from logbook.growing.recall.holds import Hold, Holds
from logbook.growing.room.places import Held, Place, Places, free_slots
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.in_the_dark import unlit_shelves
from logbook.growing.trays.life import Alike, Deed, TrayState, fold_deeds, pass_by
from logbook.growing.trays.tray_now import (
    StoredTray,
    TrayNow,
    grew_at,
    refuse_ended,
    taken_slots,
)
from logbook.store.reads.batches import read_sown_batches
from logbook.store.reads.book import About, read_places, read_rooms
from logbook.store.reads.deeds import Newest, read_deeds, read_newest
from logbook.store.reads.entries import StoredEntry
from logbook.store.reads.holds import read_holds
from logbook.store.reads.lamps import read_lamp_sets
from logbook.store.reads.templates import read_versions, template_of_versions
from logbook.store.reads.trays import read_live_trays, read_trays
from logbook.store.reads.weights import cut_once, read_had, recent_weights
from logbook.store.rows import Connection, Rows, chunks


class Fold(NamedTuple):
    """The state that the deeds of a tray gave when they were last folded.

    It is the same while what it is `of` is: the tray's newest entry, its batch and template version
    (ids), and the hours of the room that it is in.
    """

    state: TrayState
    of: tuple[Newest | None, int, int, RoomHours]


class Folds(dict[int, Fold]):
    """What a book keeps from one reading to the next: the folds of its live trays, by tray id."""

    def __init__(self) -> None:
        super().__init__()
        self.shifts: dict[tuple[int, date, int], Shifts] = {}
        """What shifts weights, by template (id), the Monday it was learnt, how much was struck by then."""


Kept = tuple[int, int, bool, datetime | None, float | None]


class Reading(Rows):
    """One moment of the book: its rows, and what they tell of the room, read once when asked for.

    `now` is the book's clock when the reading began, in UTC. `folds` are those that the book keeps
    of its live trays, by tray id; a reading of all of them puts its own in their place.
    """

    def __init__(
        self, connection: Connection, clock: Clock, folds: Folds,
        now: datetime | None = None,
    ) -> None:  # fmt: skip
        super().__init__(connection)
        self.clock = clock
        self.now = clock.now() if now is None else now
        self.folds = folds
        self._versions: dict[int, CropTemplate] = {}
        self._conditions: dict[int, Conditions] = {}

    @cached_property
    def _rooms(self) -> dict[int, tuple[About, RoomHours]]:
        return {about.room: (about, about.hours) for about in read_rooms(self)}

    @property
    def about(self) -> About:
        """The book's own row, with the first room."""
        return next(iter(self._rooms.values()))[0]

    @property
    def hours(self) -> RoomHours:
        """The first room's day: its time zone, and when its daily chores begin and end."""
        return next(iter(self._rooms.values()))[1]

    @property
    def rooms(self) -> list[RoomHours]:
        """The day of every room, the first room's first."""
        return [hours for _, hours in self._rooms.values()]

    def hours_of(self, place: int | None) -> RoomHours:
        """The day of the room that a place (id) is in; the first room's where that has none."""
        found = self.places.get(place) if len(self._rooms) > 1 else None
        return self._rooms[found.top][1] if found and found.top in self._rooms else self.hours

    def hours_said(self, entries: Sequence[StoredEntry]) -> dict[int, RoomHours]:
        """The day of the room that each entry (id) speaks of, by its place or where its trays are."""
        if len(self._rooms) == 1:
            return {entry.id: self.hours for entry in entries}
        ids = {tray for entry in entries for tray in entry.tray_ids}
        stand = {tray.id: tray.state.place for tray in self.folded(read_trays(self, ids))}
        return {
            entry.id: self.hours_of(entry.place_id or stand.get(next(iter(entry.tray_ids), 0)))
            for entry in entries
        }

    @property
    def zone(self) -> ZoneInfo:
        """The first room's time zone."""
        return self.hours.zone

    @property
    def units(self) -> Units:
        """The units that weights and lengths are written in."""
        return self.about.units

    @property
    def today(self) -> date:
        """The day in the first room."""
        return day_of(self.now, self.zone)

    def when(self, at: datetime, place: int | None = None) -> str:
        """Write a moment in the time of the room that a place (id) is in: "07:42", "Tue 18:00"."""
        return moment_words(at, self.now, self.hours_of(place).zone)

    @cached_property
    def places(self) -> Places:
        """All places in walking order, retired ones too."""
        return Places(read_places(self))

    @cached_property
    def holds(self) -> Holds:
        """What is on hold."""
        return read_holds(self)

    def held(self, tray: TrayNow, holds: Holds | None = None) -> Hold | None:
        """The oldest hold (of all, or of these) that covers a tray."""
        stands = tray.spot.walk[1::2] if tray.spot and tray.status == "growing" else ()
        of = self.holds if holds is None else holds
        return of.of_tray(tray.id, tray.stored.batch_id, tray.stored.lot, stands)

    @cached_property
    def unlit(self) -> dict[int, str]:
        """Why standing shelves (place ids) have no light, those that have none."""
        hanging = {one.place: one.lamps.lamps for one in read_lamp_sets(self)}
        bare = {place for place, lamps in hanging.items() if not lamps}
        return unlit_shelves(self.places.shelves, bare)

    @cached_property
    def live(self) -> list[TrayNow]:
        """All planned and growing trays, folded, by number."""
        return self.folded(read_live_trays(self), live=True)

    def live_in(self, path: str) -> list[TrayNow]:
        """The planned and growing trays of a room, rack or shelf (path); all of them for ''."""
        if not path:
            return self.live
        there = {shelf.id for shelf in self.places.under(self.places.find(path))}
        return [tray for tray in self.live if tray.state.place in there]

    @cached_property
    def taken(self) -> dict[int, list[Held]]:
        """The slots that growing trays hold, by place id."""
        return taken_slots(self.live, self.about.stack)

    def free(self, shelf: Place, shared_by: int = 1) -> list[int]:
        """The free slots of a shelf, from 1, for trays of which so many share one."""
        return free_slots(shelf, self.taken, shared_by)

    def trays(
        self, numbers: Collection[int], *, live: bool = True, at: datetime | None = None
    ) -> list[TrayNow]:
        """The trays that these names mean (see `trays_named`), folded, in the order asked for.

        Raises:
            Refused: a number that no tray has; with `live`, one whose tray is cut or discarded,
                by the moment `at` where one is given; else one that is free and was that of several.
        """
        trays = self.folded(trays_named(self, numbers, self.zone, newest=live))
        if live:
            refuse_ended([known for known in trays if not grew_at(known, at)])
        return trays

    def folded(
        self, trays: Sequence[StoredTray], *, live: bool = False, watered: bool = True
    ) -> list[TrayNow]:
        """Stored trays with their states; `live` says that they are all the live ones.

        Only trays with entries that `folds` does not know of are read from their deeds. Where it doesn't
        matter when many trays were watered, they are folded without that.
        """
        versions = self.versions({tray.version_id for tray in trays})
        newest = read_newest(self, None if live else [tray.id for tray in trays])
        folds = {
            tray.id: fold
            for tray in trays
            if (fold := self.folds.get(tray.id))
            and fold.of == (newest.get(tray.id), tray.batch_id, tray.version_id,
                            self.hours_of(fold.state.place))
        }  # fmt: skip
        new = [tray for tray in trays if tray.id not in folds]
        some = [tray.id for tray in new] if folds or not live else None
        deeds = read_deeds(self, some, watered=watered)
        alike: Alike = {}
        for tray in new:
            state, hours = self.fold(versions[tray.version_id], deeds.get(tray.id, ()), alike)
            of = (newest.get(tray.id), tray.batch_id, tray.version_id, hours)
            folds[tray.id] = Fold(state, of)
        if live:
            self.folds.clear()
            self.folds.update(folds)
        found = []
        for tray in trays:
            template, place = versions[tray.version_id], folds[tray.id].state.place
            state = pass_by(folds[tray.id].state, template, self.now)
            spot, hours = self.places.get(place), self.hours_of(place)
            known = TrayNow(tray, template, state, spot, hours, self.now, None)
            held = self.holds.holds and self.held(known)
            found.append(replace(known, held=held) if held else known)
        return found

    def fold(
        self, template: CropTemplate, deeds: Collection[Deed], alike: Alike
    ) -> tuple[TrayState, RoomHours]:
        """The state of a tray after its deeds, by the day of the room that they left it in."""
        state = fold_deeds(template, deeds, self.hours, alike)
        hours = self.hours_of(state.place)
        if hours == self.hours:
            return state, hours
        return fold_deeds(template, deeds, hours, alike), hours

    def versions(self, ids: Collection[int]) -> dict[int, CropTemplate]:
        """Template versions by their ids."""
        missing = {each for each in ids if each not in self._versions}
        if missing:
            self._versions.update(read_versions(self, missing))
        return {each: self._versions[each] for each in ids}

    def version(self, version_id: int) -> CropTemplate:
        """One template version."""
        return self.versions([version_id])[version_id]

    def expected(
        self, versions: Collection[int], before: datetime | None = None
    ) -> dict[int, Expected | None]:
        """The expected weight of the first harvest of a new tray of each template version (ids), g.

        With `before`, from what this room had cut before that moment.
        """
        luck = self.luck([(version, 1) for version in versions], before)
        known = self.versions(versions)
        found = {}
        for version, template in template_of_versions(self, versions).items():
            shifts = self.shifts(template, before)
            had = Conditions(seed_grams=known[version].seed_grams, cut_at=self.now)
            by = tuple(name for name in shifts.names if name != "shelf")
            found[version] = expect(
                [
                    Meant(
                        luck[version, 1],
                        0,
                        factor=shifts.factor(had),
                        by=by,
                        seed=shifts.other_seed(had.seed_grams),
                    )
                ]
            )
        return found

    def luck(
        self, harvests: Collection[tuple[int, int]], before: datetime | None = None
    ) -> dict[tuple[int, int], Luck | None]:
        """What is known of the weights of harvests (template version id, number); as expected()."""
        versions = {version for version, _ in harvests}
        templates = template_of_versions(self, versions)
        wanted = {(templates[version], number) for version, number in harvests}

        def scale(template: int, trays: Collection[int]) -> Mapping[int, float]:
            shifts = self.shifts(template, before)
            had = self._had(trays) if shifts.names else {}
            return {tray: shifts.factor(each) for tray, each in had.items()}

        weights = recent_weights(self, wanted, before=before, scale=scale)
        known = self.versions(versions)
        return {
            (version, number): luck_of_harvest(
                known[version], weights[templates[version], number], number
            )
            for version, number in harvests
        }

    def shifts(self, template: int, before: datetime | None = None) -> Shifts:
        """By how much shelf, seed and season move a template's (id) weights: learnt anew each Monday."""
        monday = monday_of(day_of(before or self.now, self.zone))
        key = (template, monday, self._strikes)
        if key not in self.folds.shifts:
            start = wall(monday, 0, self.zone)
            weights = cut_once(self, template, NEWEST, start)
            had = self._had([one.tray for one in weights])
            if not frequent(sorted((one.at, one.batch) for one in weights)):
                weights = cut_once(self, template, MOST_TRAYS, start)
            weights.sort(key=lambda one: (one.at, one.tray))
            self.folds.shifts[key] = learnt(
                [
                    Weighed(
                        one.batch, one.grams,
                        had.get(one.tray, NOTHING)._replace(cut_at=one.at), one.shared,
                    )
                    for one in weights
                ]
            )  # fmt: skip
        return self.folds.shifts[key]

    @cached_property
    def _strikes(self) -> int:
        return int(self.value("SELECT count(*) FROM entry WHERE strikes_id IS NOT NULL"))

    def _had(self, trays: Collection[int]) -> dict[int, Conditions]:
        """What trays (ids) that were cut had; of their ends nothing."""
        found = read_had(self, {tray for tray in trays if tray not in self._conditions})
        versions = self.versions({one.version_id for one in found.values()})
        self._conditions |= {
            tray: Conditions(one.place_id, versions[one.version_id].seed_for(one.grams_per_tray))
            for tray, one in found.items()
        }
        return {tray: self._conditions[tray] for tray in trays if tray in self._conditions}

    def meant(
        self, trays: Sequence[TrayNow], before: datetime | None = None,
        luck: Mapping[tuple[int, int], Luck | None] | None = None,
    ) -> dict[int, Meant]:  # fmt: skip
        """Each tray's next cut, as expect() takes it, by tray id; as expected().

        It goes by the tray's shelf, its seed and the season. Nothing is known where a part of it was
        cut and not weighed: the rest is not known. `luck` is what luck() says, where it was asked.
        """
        of = {each.id: (each.stored.version_id, each.state.harvest) for each in trays}
        luck = self.luck(set(of.values()), before) if luck is None else luck
        first = {version for version, harvest in of.values() if harvest == 1}
        shifts = {
            version: self.shifts(template, before)
            for version, template in template_of_versions(self, first).items()
        }
        found = {}
        for each in trays:
            version, harvest = of[each.id]
            known = shifts[version] if harvest == 1 else NONE
            had = Conditions(each.state.place, each.seed_grams, self.now)
            found[each.id] = Meant(
                luck[of[each.id]] if each.state.part_known else None, each.stored.batch_id,
                each.state.part_grams, known.factor(had), known.names, known.other_seed(each.seed_grams),
            )  # fmt: skip
        return found


@dataclass(frozen=True, slots=True)
class Summary:
    """What the tray table keeps of a tray, and what the fold over its entries gives.

    Each is (batch id, version id, live, ended at, cut grams); `state` is the whole fold.
    """

    id: int
    number: int
    kept: Kept
    true: Kept
    state: TrayState


def true_summaries(reading: Reading, trays: Iterable[int]) -> Iterator[Summary]:
    """The summaries of trays (ids) as they are kept and as they should be, in pieces."""
    for ids in chunks(trays):
        stored = read_trays(reading, ids)
        sown = read_sown_batches(reading, ids)
        deeds = read_deeds(reading, ids)
        belongs = {tray.id: sown.get(tray.id, (tray.batch_id, tray.version_id)) for tray in stored}
        versions = reading.versions({version for _, version in belongs.values()})
        alike: Alike = {}
        for tray in stored:
            batch, version = belongs[tray.id]
            state, _ = reading.fold(versions[version], deeds.get(tray.id, ()), alike)
            yield Summary(
                tray.id,
                tray.number,
                (tray.batch_id, tray.version_id, tray.live, tray.ended_at, tray.cut_grams),
                (batch, version, state.live, state.ended_at, state.cut_grams),
                state,
            )
