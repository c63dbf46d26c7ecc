"""Replacing: a wrong entry is struck and the right one written in its place, in one act."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, fields, replace
from datetime import datetime, timedelta

from logbook.actions.book import Book
from logbook.actions.doing import Done, chosen_spots, slot_named
from logbook.actions.entry_words import entry_noun
from logbook.actions.sowing import SOAK_BY_TEMPLATE, place_trays
from logbook.actions.striking import (
    checked_reason,
    entry_to_strike,
    write_strike,
)
from logbook.actions.templates import find_template
from logbook.actions.trays import Known
from logbook.actions.writing import Act
from logbook.growing.days import moment_words
from logbook.growing.kinds import kind_of
from logbook.growing.life import Deed
from logbook.growing.looks import MOULD_CAUTION, Look, checked_look, has_mould, sees_sign
from logbook.growing.numbers import numbers_words
from logbook.growing.places import shelves_under
from logbook.growing.quantities import SEED, WATER
from logbook.growing.water import WaterReading
from logbook.growing.weighing import checked_grams, question, share_out
from logbook.store.details import copy_details
from logbook.store.reads_deeds import read_deeds
from logbook.store.reads_entries import StoredEntry, read_act, read_root
from logbook.store.reads_places import read_places
from logbook.store.reads_said import read_looks, read_spots
from logbook.store.reads_templates import read_templates
from logbook.store.reads_trays import read_trays
from logbook.store.reads_water import read_water_of
from logbook.store.reads_weights import read_weights
from logbook.store.tables import BatchRow, LookRow, WateringRow, WeightRow
from logbook.text import Refused, clean_name, clean_note, listed
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class Changes:
    """What the entry in the other's place says differently; None stays as it was.

    `grams` is the cut weight of all its trays together, or for a sowing the dry seed a tray;
    `numbers` its trays; `place` where a move or a sowing put them; `amount_ml` water a tray;
    `look` replaces what it fills; `lot` and `template` are of a sowing; `at` of a plan is the
    time that is planned.
    """

    at: datetime | None = None
    note: str | None = None
    numbers: tuple[int, ...] | None = None
    grams: float | None = None
    part: bool | None = None
    amount_ml: float | None = None
    place: str | None = None
    look: Look | None = None
    lot: str | None = None
    template: str | None = None

    def filled(self) -> tuple[str, ...]:
        """Name what is changed."""
        return tuple(each.name for each in fields(self) if getattr(self, each.name) is not None)


_NAMES = {
    "at": "time",
    "numbers": "trays",
    "amount_ml": "amount",
    "part": "part mark",
    "lot": "seed lot",
}


def replace_entry(book: Book, entry_id: int, why: str, changes: Changes) -> Done:
    """Strike an entry with a reason and write it anew with what is changed, in one act.

    Both stay in the record with who and when; sums and views use the new one, which keeps the
    old one's place among entries of the same moment.

    Raises:
        Refused: there is no such standing entry, it has no such part to change, or the new one
            cannot be (the sentence says what could).
    """
    reason = checked_reason(why)
    if not changes.filled():
        raise Refused("What is right instead? Give the time, the note, the weight or the trays.")
    with book.writing() as act:
        entry = entry_to_strike(act, entry_id)
        kind = kind_of(entry.kind)
        if not kind.replaced:
            raise Refused(
                f"Entry {entry_id} is of a trial; strike it, and say it anew by {Way.TRIAL}."
            )
        odd = [_NAMES.get(name, name) for name in changes.filled() if name not in kind.takes]
        if odd:
            can = [_NAMES.get(name, name) for name in kind.takes]
            raise Refused(
                f"Entry {entry_id} ({entry_noun(act.reading, entry)}) has no {listed(odd, joint='or')} to "
                f"change; it has {listed(can)}."
            )
        act_id = write_strike(act, entry, reason)
        new, trays, notices = _Replacement(act, entry, changes).write()
        words = (
            f"struck {entry_noun(act.reading, entry)} {numbers_words(entry.trays)}".strip()
            + f"; entry {new} stands in the place of entry {entry_id}"
        )
        return Done(words, act_id, tuple(known.stored.number for known in trays), tuple(notices))


class _Replacement:
    """The writing of one entry in the place of a struck one."""

    def __init__(self, act: Act, entry: StoredEntry, changes: Changes) -> None:
        self.act = act
        self.entry = entry
        self.kind = kind_of(entry.kind)
        self.changes = changes
        self.root = read_root(act.reading, entry.id)
        self.trays = self._trays()
        self.ids = [known.stored.id for known in self.trays]
        self.other_trays = set(self.ids) != set(entry.tray_ids)
        self.at = entry.at
        if changes.at is not None and entry.kind != "plan":
            self.at = act.moment(changes.at, entry_noun(act.reading, entry).capitalize())
        if self.at != entry.at or self.other_trays:
            self._check_time()

    def write(self) -> tuple[int, list[Known], list[str]]:
        """Write it; give its id, its trays and what is worth saying."""
        writers: dict[str, Callable[[], tuple[int, list[str]]]] = {
            "weigh": self._weigh,
            "water": self._water,
            "look": self._look,
            "jot": self._jot,
            "move": self._move,
            "sow": self._sow,
            "plan": self._plan,
        }
        new, notices = writers.get(self.entry.kind, self._plain)()
        return new, self.trays, notices

    def _trays(self) -> list[Known]:
        reading = self.act.reading
        mine = {tray.number: tray for tray in read_trays(reading, self.entry.tray_ids)}
        numbers = self.changes.numbers
        if numbers is None:
            return reading.folded(list(mine.values()))
        if not numbers:
            raise Refused("Which trays? Write their numbers.")
        others = [number for number in numbers if number not in mine]
        live = not self.kind.on_ended
        fresh = {known.stored.number: known for known in reading.trays(others, live=live)}
        known_ones = {known.stored.number: known for known in reading.folded(list(mine.values()))}
        return [fresh.get(number) or known_ones[number] for number in numbers]

    def _check_time(self) -> None:
        if self.entry.kind in ("jot", "plan"):
            return
        deeds = read_deeds(self.act.reading, self.ids)
        for known in self.trays:
            after, before = self._bounds(known, deeds.get(known.stored.id, []))
            what = entry_noun(self.act.reading, self.entry)
            if before is not None and self.at < before[0]:
                raise Refused(
                    f"Tray {known.stored.number} {before[1]} {self._when(before[0])}; {what} "
                    "cannot have been done before that."
                )
            if after is not None and self.at > after[0]:
                raise Refused(
                    f"Tray {known.stored.number} {after[1]} {self._when(after[0])}; {what} "
                    "cannot have been done after that."
                )

    def _when(self, at: datetime) -> str:
        return moment_words(at, self.act.now, self.act.reading.zone)

    def _bounds(
        self, known: Known, deeds: Sequence[Deed]
    ) -> tuple[tuple[datetime, str] | None, tuple[datetime, str] | None]:
        """Give the latest moment that a tray leaves to the entry, and the earliest, with why."""
        kind = self.entry.kind
        mine = (self.entry.at, self.root)
        sown = [deed.at for deed in deeds if deed.kind == "sow"]
        if kind == "soak":
            return (min(sown), "was sown") if sown else None, None
        if kind == "sow":
            late = [deed.at for deed in deeds if deed.kind not in ("plan", "soak", "sow", "skip")]
            soaked = [
                deed.at for deed in deeds if deed.kind == "soak" and not self._own(deed.entry)
            ]
            return (
                (min(late), "had something done to it") if late else None,
                (max(soaked), "was soaked") if soaked else None,
            )
        if kind == "change":
            steps = [deed for deed in deeds if deed.kind in ("sow", "change")]
            earlier = [deed.at for deed in steps if (deed.at, deed.entry) < mine]
            later = [deed.at for deed in steps if (deed.at, deed.entry) > mine]
            return (
                (min(later), "went on to its next stage") if later else None,
                (max(earlier), "came into the stage before") if earlier else None,
            )
        if not sown and not self.kind.before_sowing:
            raise Refused(
                f"Tray {known.stored.number} is not sown yet, so there was no "
                f"{entry_noun(self.act.reading, self.entry)} to do."
            )
        return None, (max(sown), "was sown") if sown else None

    def _own(self, entry_id: int) -> bool:
        """Whether an entry is the soak that was written together with this sowing."""
        return self.entry.kind == "sow" and any(each.id == entry_id for each in self._soaks())

    def _soaks(self) -> list[StoredEntry]:
        return [
            each
            for each in read_act(self.act.reading, self.entry.act_id or self.entry.id)
            if each.kind == "soak"
            and each.struck_by is None
            and set(each.tray_ids) == set(self.entry.tray_ids)
        ]

    def _entry(
        self, *, batch: int | None = None, place: int | None = None, trays: Sequence[int] = ()
    ) -> int:
        batches = {known.stored.batch_id for known in self.trays}
        note = self.entry.note if self.changes.note is None else clean_note(self.changes.note)
        if note == SOAK_BY_TEMPLATE and self.changes.at is not None:
            note = ""
        if not note and self.kind.note_needed:
            raise Refused("The new note is empty; a word is enough.")
        return self.act.entry(
            self.entry.kind,
            trays or self.ids,
            self.at,
            note=note,
            chore=self.entry.chore,
            stage=self.entry.stage,
            batch=batch or (next(iter(batches)) if len(batches) == 1 else None),
            place=place if place is not None else self.entry.place_id,
            strikes=self.entry.id,
        )

    def _copied(self, new: int, *leave: str) -> None:
        copy_details(self.act.reading, self.entry.id, new, leave)

    def _plain(self) -> tuple[int, list[str]]:
        new = self._entry()
        self._copied(new)
        return new, []

    def _weigh(self) -> tuple[int, list[str]]:
        new = self._entry()
        rows = read_weights(self.act.reading, [self.entry.id]).get(self.entry.id, [])
        part = any(row.part for row in rows) if self.changes.part is None else self.changes.part
        grams = {row.tray_id: row.grams for row in rows}
        if self.changes.grams is not None or self.other_trays:
            total = self.changes.grams
            if total is None:
                total = sum(grams.values())
            for known in self.trays:
                checked_grams(total / len(self.trays), known.stored.number)
            shares = share_out(total, len(self.ids)) if len(self.ids) > 1 else (total,)
            grams = dict(zip(self.ids, shares, strict=True))
        self.act.session.add_all(
            WeightRow(entry_id=new, tray_id=tray, grams=weight, part=part, shared=len(grams) > 1)
            for tray, weight in grams.items()
        )
        doubts = {question(weight, None, self.act.reading.units) for weight in grams.values()} - {
            ""
        }
        return new, sorted(doubts)

    def _water(self) -> tuple[int, list[str]]:
        new = self._entry()
        amount = self.changes.amount_ml
        given = read_water_of(self.act.reading, [self.entry.id]).get(self.entry.id, WaterReading())
        if amount is None:
            amount = given.millilitres
        else:
            WATER.checked(amount)
        self.act.session.add(WateringRow(entry_id=new, amount_ml=amount, ph=given.ph, ec=given.ec))
        return new, []

    def _look(self) -> tuple[int, list[str]]:
        given = self.changes.look
        if given is None and not self.other_trays:
            return self._plain()
        seen = read_looks(self.act.reading, [self.entry.id]).get(self.entry.id, Look())
        if given is not None:
            filled = {key: value for key, value in asdict(given).items() if value not in (None, "")}
            seen = checked_look(replace(seen, **filled))
        signs: dict[bool, list[int]] = {}
        for known in self.trays:
            sign = sees_sign(seen, known.template.sign_to_cut)
            signs.setdefault(sign, []).append(known.stored.id)
        new = 0
        for sign, trays in signs.items():
            new = self._entry(trays=trays)
            if not seen.empty:
                self.act.session.add(LookRow(entry_id=new, sign_seen=sign, **asdict(seen)))
        return new, [MOULD_CAUTION] if has_mould(seen) else []

    def _jot(self) -> tuple[int, list[str]]:
        place = None
        if self.changes.place:
            place = self.act.reading.places.find(self.changes.place).id
        return self._entry(place=place), []

    def _move(self) -> tuple[int, list[str]]:
        return self._at_spots(None), []

    def _spots(self) -> Sequence[tuple[int | None, int | None] | None] | None:
        """Give the spots of the trays where they change; None where they stay as they were."""
        raw, text = self.act.reading, self.changes.place
        places = read_places(raw)
        if text is None:
            if not self.other_trays:
                return None
            was = {
                spot.place_id for spot in read_spots(raw, [self.entry.id]).get(self.entry.id, [])
            }
            paths = [place.path for place in places if place.id in was]
            if len(paths) != 1:
                raise Refused("Say where these trays were put: give the place too.")
            text = paths[0]
        if self.entry.kind != "plan" and self._still_there():
            return chosen_spots(self.act, self.trays, text)[1]
        place, slot = slot_named(text, places)
        shelves = shelves_under(place, places)
        if not shelves:
            raise Refused(f"{place.path} has no shelf; name a shelf.")
        return [(shelves[0].id, slot if len(self.ids) == 1 else None)] * len(self.ids)

    def _still_there(self) -> bool:
        """Whether the trays still stand where this entry put them: nothing moved them since."""
        mine = (self.at, self.root)
        deeds = read_deeds(self.act.reading, self.ids)
        return all(known.state.status == "growing" or self.entry.kind == "sow"
                   for known in self.trays) and not any(
            deed.kind in ("move", "weigh", "cut", "discard") and (deed.at, deed.entry) > mine
            for each in deeds.values()
            for deed in each
        )  # fmt: skip

    def _sow(self) -> tuple[int, list[str]]:
        batch = self._batch(None)
        self._soak_too(batch)
        return self._at_spots(batch), []

    def _plan(self) -> tuple[int, list[str]]:
        ahead = self.changes.at
        if ahead is not None and ahead <= self.act.now:
            raise Refused(
                f"A plan must lie ahead; {Way.DONE.of('sow')} writes what was sown already."
            )
        batch = self._batch(ahead)
        return self._at_spots(batch), []

    def _at_spots(self, batch: BatchRow | None) -> int:
        """Write the entry with its trays where they are put, or where they were."""
        spots = self._spots()
        new = self._entry(batch=batch.id if batch else None)
        if spots is None:
            self._copied(new)
        else:
            place_trays(self.act, new, self.ids, spots)
        return new

    def _batch(self, ahead: datetime | None) -> BatchRow | None:
        """Write the batch that a corrected sowing makes of its trays, if it makes another."""
        changes, raw = self.changes, self.act.reading
        if changes.grams is None and changes.lot is None and changes.template is None and not ahead:
            return None
        batches = {known.stored.batch_id for known in self.trays}
        if len(batches) != 1:
            raise Refused(
                "These trays are of more than one batch, "
                f"{listed([str(each) for each in sorted(batches)])}; strike it and sow each anew."
            )
        stored = self.trays[0].stored
        version, grams = stored.version_id, stored.grams_per_tray
        if changes.template is not None:
            found = find_template(changes.template, read_templates(raw))
            version = found.version_id
            self._check_stages(len(found.template.stages), found.template.name)
        lot = stored.lot
        if changes.lot is not None:
            lot = clean_name(changes.lot, "seed lot") if changes.lot.strip() else ""
        row = BatchRow(
            version_id=version,
            lot=lot,
            grams_per_tray=SEED.checked(changes.grams) if changes.grams is not None else grams,
            planned_for=ahead or stored.planned_for,
        )
        self.act.session.add(row)
        self.act.session.flush()
        return row

    def _check_stages(self, count: int, name: str) -> None:
        for deeds in read_deeds(self.act.reading, self.ids).values():
            highest = max((deed.stage or 0 for deed in deeds), default=0)
            if highest >= count:
                raise Refused(
                    f'These trays have gone through {highest + 1} stages; "{name}" has {count}. '
                    "Strike the changes that were not made first."
                )

    def _soak_too(self, batch: BatchRow | None) -> None:
        """Let the soak that was written with this sowing follow its time and template."""
        for soak in self._soaks():
            old = new = self.trays[0].template
            if batch is not None:
                new = self.act.reading.versions([batch.version_id])[batch.version_id]
            reckoned = self.entry.at - soak.at == timedelta(seconds=old.soak_seconds)
            stays = new.soak_seconds > 0 or not reckoned
            at = self.at - timedelta(seconds=new.soak_seconds) if reckoned else soak.at
            if at > self.at:
                raise Refused(
                    f"The soak began {self._when(soak.at)}, after that; strike or change entry "
                    f"{soak.id} first."
                )
            if stays and at == soak.at:
                continue
            write_strike(self.act, soak, f"with entry {self.entry.id}")
            if stays:
                self.act.entry(
                    "soak", soak.tray_ids, at, note=soak.note, chore="soak", batch=soak.batch_id,
                    strikes=soak.id,
                )  # fmt: skip
