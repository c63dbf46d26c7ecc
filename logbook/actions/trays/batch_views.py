"""What the page of a batch shows."""

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.trays.ahead import Ahead
from logbook.actions.trays.entry_lines import Line
from logbook.actions.yields.unusual import Unusual
from logbook.growing.costs.parts import Costs
from logbook.growing.crops.seed_lots import SeedLot
from logbook.growing.crops.yields import Expected
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.tray_now import TrayNow


@dataclass(frozen=True, slots=True)
class BatchPage:
    """A batch: its trays as they stand, what happened to any of them, and the weights."""

    keys: ClassVar = """
        batch template=template_name version lot lots seed_grams_per_tray=seed_grams sown_at planned_for
        trays cut_grams past ahead cut_trays mean_grams grams_per_gram_seed
        *expected rest_grams=rest.grams rest_low_grams=rest.low rest_high_grams=rest.high unusual=unusual.words differed=unusual.differed
        costs
    """

    batch: str
    template_name: str
    version: int
    """The template's version that it was sown with."""
    lot: str
    """Seed lot, several joined by +; empty when none was given."""
    lots: tuple[SeedLot, ...]
    """The seed lots, with the grams taken from each where they were weighed."""
    seed_grams: float | None
    sown_at: datetime | None
    planned_for: datetime | None
    trays: tuple[TrayNow, ...]
    """Its trays, one by one."""
    past: tuple[Line, ...]
    ahead: tuple[Ahead, ...]
    """What will happen if nothing else does."""
    cut_grams: float
    """All that was cut, g."""
    cut_trays: int
    """Trays that were weighed."""
    expected: Expected | None
    """A tray's first harvest."""
    rest: Expected | None
    """What its live trays may still give together; null where nothing is known of them."""
    unusual: Unusual | None = None
    """That it gave less than is usual, and what differed for it."""
    costs: Costs | None = None
    """What its trays cost that have left the rack; null where none has."""

    @property
    def hours(self) -> RoomHours:
        """The day of the room of its first tray."""
        return self.trays[0].hours

    @property
    def mean_grams(self) -> float | None:
        """Weight of a tray's first harvest, in g, over those where it is whole and weighed."""
        weights = [
            each.grams
            for tray in self.trays
            for each in tray.state.harvests
            if each.done and each.weighed and each.number == 1
        ]
        return sum(weights) / len(weights) if weights else None

    @property
    def grams_per_gram_seed(self) -> float | None:
        """Cut weight per g of seed, over the same trays."""
        mean, seed = self.mean_grams, self.seed_grams
        return None if mean is None or not seed else round(mean / seed, 4)
