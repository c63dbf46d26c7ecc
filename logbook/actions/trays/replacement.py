"""The entry in another's place: what it says differently, and how each kind is written anew."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from datetime import datetime

from logbook.actions.packs.joining import lots_of_cut
from logbook.actions.trays.done import batch_of, ids_of
from logbook.actions.trays.entry_times import check_time
from logbook.actions.trays.entry_words import entry_noun
from logbook.actions.writing import Act
from logbook.growing.kinds import kind_of
from logbook.growing.quantities import WATER
from logbook.growing.room.water import WaterReading
from logbook.growing.trays.looks import MOULD_CAUTION, Look, checked_look, has_mould, sees_sign
from logbook.growing.trays.soaking import SOAK_BY_TEMPLATE
from logbook.growing.trays.tray_now import TrayNow, refuse_held
from logbook.growing.trays.weighing import checked_grams, question, refuse_both, share_out
from logbook.store.entry_details import copy_details
from logbook.store.reads.entries import StoredEntry
from logbook.store.reads.packs import read_lots
from logbook.store.reads.said import read_looks, read_weights
from logbook.store.reads.templates import template_of_versions
from logbook.store.reads.trays import read_trays
from logbook.store.reads.water import read_water_of
from logbook.text import Refused, clean_note

Notices = list[str]
"""What is worth saying, a sentence each."""


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
    keep: bool | None = None
    amount_ml: float | None = None
    place: str | None = None
    look: Look | None = None
    lot: str | None = None
    template: str | None = None

    def filled(self) -> tuple[str, ...]:
        """The names of what is changed."""
        return tuple(each.name for each in fields(self) if getattr(self, each.name) is not None)


class Replacement:
    """An entry in the place of a struck one; by itself it says what that one said, but for changes."""

    def __init__(self, act: Act, entry: StoredEntry, changes: Changes) -> None:
        self.act = act
        self.reading = act.reading
        self.entry = entry
        self.kind = kind_of(entry.kind)
        self.changes = changes
        self.trays = self._trays()
        self.ids = ids_of(self.trays)
        self.other_trays = set(self.ids) != set(entry.tray_ids)
        self.at = self.moment()
        if self.at != entry.at or self.other_trays:
            check_time(self.reading, entry, self.at, self.trays)
        if self.kind.answers == "cut":
            refuse_held([each for each in self.trays if each.id not in entry.tray_ids], self.at)

    def moment(self) -> datetime:
        """When it happened."""
        if self.changes.at is None:
            return self.entry.at
        noun = entry_noun(self.reading, self.entry).capitalize()
        return self.act.moment(self.changes.at, noun)

    def write(self) -> tuple[int, Notices]:
        """Write it; returns its id."""
        return self.copy(), []

    def _trays(self) -> list[TrayNow]:
        mine = self.reading.folded(read_trays(self.reading, self.entry.tray_ids))
        numbers = self.changes.numbers
        if numbers is None:
            return mine
        if not numbers:
            raise Refused("Which trays? Write their numbers.")
        known = {each.number: [each] for each in mine}
        live = not self.kind.on_ended
        found = (known.get(name) or self.reading.trays([name], live=live) for name in numbers)
        return list({each.id: each for trays in found for each in trays}.values())

    def write_entry(
        self, *, batch: int | None = None, place: int | None = None, trays: Sequence[int] = ()
    ) -> int:
        """Write the entry alone, without what it carries."""
        note = self.entry.note if self.changes.note is None else clean_note(self.changes.note)
        if note == SOAK_BY_TEMPLATE and self.changes.at is not None:
            note = ""
        if not note and self.kind.note_needed:
            raise Refused("The new note is empty; one word will do.")
        return self.act.entry(
            self.entry.kind, trays or self.ids, self.at, note=note, chore=self.entry.chore,
            stage=self.entry.stage, batch=batch or batch_of(self.trays),
            place=place if place is not None else self.entry.place_id, strikes=self.entry.id,
        )  # fmt: skip

    def copy(self, batch: int | None = None) -> int:
        """Write the entry with all that the struck one carries."""
        new = self.write_entry(batch=batch)
        copy_details(self.act.writer, self.entry.id, new)
        return new


class WeightsReplacement(Replacement):
    """A cut weight; a new total, or other trays, share it out anew."""

    def write(self) -> tuple[int, Notices]:
        """Write it; doubtful weights are asked about."""
        new = self.write_entry()
        rows = read_weights(self.reading, [self.entry.id]).get(self.entry.id, [])
        part, keep = self.changes.part, self.changes.keep
        if part is None:
            part = not keep and any(row.part for row in rows)
        if keep is None:
            keep = self.changes.part is None and any(row.keep for row in rows)
        refuse_both(part, keep)
        grams = {row.tray_id: row.grams for row in rows}
        if self.changes.grams is not None or self.other_trays:
            total = sum(grams.values()) if self.changes.grams is None else self.changes.grams
            for known in self.trays:
                checked_grams(total / len(self.trays), known.number)
            shares = share_out(total, len(self.ids)) if len(self.ids) > 1 else (total,)
            grams = dict(zip(self.ids, shares, strict=True))
        lots = self._lots({row.tray_id: row.lot_id for row in rows}, new)
        weights = (
            {"tray_id": tray, "grams": weight, "lot_id": lots[tray]}
            for tray, weight in grams.items()
        )
        self.act.put("weight", new, weights, part=part, keep=keep, shared=len(grams) > 1)
        doubts = {question(weight, None, self.reading.units) for weight in grams.values()}
        return new, sorted(doubts - {""})

    def _lots(self, before: Mapping[int, int | None], new: int) -> dict[int, int | None]:
        """A tray stays in its lot, another one of the same crop joins that; one of another crop its own."""
        lot = next(iter(before.values()), None)
        if lot is None or set(self.ids) <= set(before):
            return {tray: before.get(tray) for tray in self.ids}
        of = read_lots(self.reading, [lot])[lot].template
        crops = template_of_versions(self.reading, {t.stored.version_id for t in self.trays})
        other = [t for t in self.trays if t.id not in before and crops[t.stored.version_id] != of]
        joined = lots_of_cut(self.act, new, other, self.at)
        return {
            tray: joined[tray].id if tray in joined else before.get(tray, lot) for tray in self.ids
        }


class WateringReplacement(Replacement):
    """Water that was given or measured."""

    def write(self) -> tuple[int, Notices]:
        """Write it; raises Refused for an amount that cannot be."""
        new = self.write_entry()
        given = read_water_of(self.reading, [self.entry.id]).get(self.entry.id, WaterReading())
        amount = given.millilitres
        if self.changes.amount_ml is not None:
            amount = WATER.checked(self.changes.amount_ml)
        self.act.put("watering", new, amount_ml=amount, ph=given.ph, ec=given.ec)
        return new, []


class LookReplacement(Replacement):
    """A look; what is filled of the new one stands before what was seen."""

    def write(self) -> tuple[int, Notices]:
        """Write it, an entry for the trays whose sign it sees and one for the others."""
        given = self.changes.look
        if given is None and not self.other_trays:
            return super().write()
        seen = read_looks(self.reading, [self.entry.id]).get(self.entry.id, Look())
        if given is not None:
            filled = {key: value for key, value in asdict(given).items() if value not in (None, "")}
            seen = checked_look(replace(seen, **filled))
        signs: dict[bool, list[int]] = {}
        for known in self.trays:
            sign = sees_sign(seen, known.template.sign_to_cut)
            signs.setdefault(sign, []).append(known.id)
        new = 0
        for sign, trays in signs.items():
            new = self.write_entry(trays=trays)
            if not seen.empty:
                self.act.put("look", new, sign_seen=sign, **asdict(seen))
        return new, [MOULD_CAUTION] if has_mould(seen) else []


class PlaceReplacement(Replacement):
    """A jot, which may speak of a place."""

    def write(self) -> tuple[int, Notices]:
        """Write it."""
        text = self.changes.place
        return self.write_entry(place=self.reading.places.find(text).id if text else None), []
