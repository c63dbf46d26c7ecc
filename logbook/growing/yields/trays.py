"""Trays that have left the rack, and what they gave and took."""

from datetime import datetime
from decimal import Decimal
from typing import NamedTuple

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import DAY
from logbook.growing.yields.sold import Sold


class GoneTray(NamedTuple):
    """A tray that was cut or discarded, with all its harvests.

    Grams are None where a cut went unweighed, 0 for what was discarded uncut. `shared` says that
    others were on the scale with it. What it was sown of and where it stood last is by name.
    """

    tray: int
    batch: int
    crop: str
    template: CropTemplate
    sown_at: datetime | None
    cut_at: datetime | None
    """When it was cut first; None for one that never was."""
    ended_at: datetime
    first_grams: float | None
    further_grams: float = 0.0
    regrown_grams: float = 0.0
    shared: bool = False
    lost: str = ""
    """Why it was discarded; '' where it was cut."""
    seed_grams: float | None = None
    lot: str = ""
    place: str = ""
    person: str = ""
    """Who sowed it."""
    sold_live: bool = False
    """Whether it was sold as it grew: it was neither cut nor lost."""
    kwh: float | None = None
    """What lit it, kWh; None where no lamps are known."""
    light_cost: Decimal | None = None
    """What that cost; None where lamps or prices are not known throughout."""
    sold: Sold | None = None
    """What of its cuts was packed and sold; None where none went into a pack lot."""

    @property
    def grams(self) -> float | None:
        """All that was cut of it, g."""
        if self.first_grams is None:
            return None
        return self.first_grams + self.further_grams + self.regrown_grams

    @property
    def days_to_cut(self) -> float | None:
        """Days from sowing to its first cut."""
        if self.cut_at is None or self.sown_at is None:
            return None
        return (self.cut_at - self.sown_at).total_seconds() / DAY

    def slot_days(self, stack: int) -> float | None:
        """For how many days it held a slot; part of one where it shared it.

        Stages under weight, which stand `stack` high, are taken as long as the template says.
        """
        if self.sown_at is None:
            return None
        left, held = (self.ended_at - self.sown_at).total_seconds(), 0.0
        for place, stage in enumerate(self.template.stages):
            here = left if stage.seconds is None or left < stage.seconds else stage.seconds
            held += here / self.template.trays_a_slot(place, stack)
            left -= here
        return held / DAY
