"""Trays as they stand now: the stored trays, folded."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.numbers import numbers_words
from logbook.growing.room.places import Held, Place
from logbook.growing.trays.life import TrayState
from logbook.growing.trays.round import TrayNow
from logbook.store.reads.trays import StoredTray
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Known:
    """A stored tray with its template version and its state."""

    stored: StoredTray
    template: CropTemplate
    state: TrayState

    @property
    def seed_grams(self) -> float | None:
        """Its dry seed, g."""
        return self.template.seed_for(self.stored.grams_per_tray)

    def trays_a_slot(self, stack: int) -> int:
        """How many trays like it share a slot now; `stack` is how high those under weight stand."""
        return self.template.trays_a_slot(self.state.stage, stack)

    @property
    def wants_light(self) -> bool:
        """Whether it grows in a stage of light."""
        growing = self.state.status == "growing"
        return growing and self.template.stages[self.state.stage].light == "lit"


def tray_now(known: Known, places: dict[int, Place]) -> TrayNow:
    """A folded tray as the round sees it."""
    place = places.get(known.state.place or 0)
    stored = known.stored
    return TrayNow(
        tray=stored.id, number=stored.number, batch=str(stored.batch_id), batch_id=stored.batch_id,
        template=known.template, state=known.state, place=place.path if place else "",
        walk=place.walk if place else (), colour=stored.colour, lot=stored.lot,
        seed_grams=known.seed_grams,
    )  # fmt: skip


def grew_at(known: Known, at: datetime | None) -> bool:
    """Whether a tray that is gone by now still grew at a moment: what was on paper comes late."""
    return at is not None and known.state.ended_at is not None and at < known.state.ended_at


def refuse_ended(trays: Collection[Known]) -> None:
    """Raise Refused when any of the trays is cut, discarded or struck out."""
    gone = [known for known in trays if not known.state.live]
    if not gone:
        return
    ends: dict[str, list[int]] = {}
    for known in gone:
        ends.setdefault(known.state.status.words, []).append(known.stored.number)
    tray_is, it_was = ("Tray {} is", "it was") if len(gone) == 1 else ("Trays {} are", "they were")
    numbers = numbers_words(known.stored.number for known in gone)
    how = f"{it_was} {next(iter(ends))}"
    if len(ends) > 1:
        how = ", ".join(f"{words}: {numbers_words(some)}" for words, some in ends.items())
    raise Refused(f"{tray_is.format(numbers)} no longer growing ({how}).")


def taken_slots(trays: Collection[Known], stack: int) -> dict[int, list[Held]]:
    """The slots that growing trays hold, by place id; `stack` is how high trays under weight stand."""
    taken: dict[int, list[Held]] = {}
    for known in trays:
        if known.state.status == "growing" and known.state.place is not None:
            held = Held(known.state.slot, known.trays_a_slot(stack))
            taken.setdefault(known.state.place, []).append(held)
    return taken
