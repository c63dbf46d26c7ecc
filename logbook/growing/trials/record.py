"""What the book holds of one tray of a trial, and how long it was in each stage."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import ClassVar

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.keys import TrayNumber
from logbook.growing.kinds import kind_of
from logbook.growing.trays.chores import RECURRING, RoomHours
from logbook.growing.trays.life import Deed, TrayState, pass_by, stage_end, step
from logbook.growing.trials.arms import Tray
from logbook.growing.trials.kept import Happenings


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a tray had around it. None where it is not recorded.

    Over its days in stages of light: lit hours a day and in all, which lamps; `lamp_cost` is its
    share of their electricity, `lamp_lack` why that is not known, `lamp_kwh` the energy, known without
    a price too. Mean light while lit
    (µmol m⁻² s⁻¹) and daily light (mol m⁻²) are of the time on measured shelves, where that is
    half of the lit hours or more; `unmeasured_hours` are the other lit hours. Over its whole life:
    mean °C and % of humidity, and the hours in which the power was off.
    """

    light_days: float = 0.0
    lit_hours: float | None = None
    lit_in_all: float = 0.0
    unmeasured_hours: float = 0.0
    ppfd: float | None = None
    dli: float | None = None
    lamps: str = ""
    lamp_cost: Decimal | None = None
    lamp_lack: str = ""
    lamp_kwh: float | None = None
    celsius: float | None = None
    humidity: float | None = None
    power_off: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TrayRecord(Tray):
    """One tray of a trial with all that was recorded of it.

    Stage hours are by the stage's name for stages that are over; `run` is the week from 1.
    """

    keys: ClassVar = "tray=number arm block week=run grams left_out status=state.status place"

    grams: float | None = None
    block: str = ""
    left_out: str = ""
    """Why it is left out; empty when it is not."""
    strange: str = ""
    """The template it was sown from, where that is neither the trial's nor its arm's."""
    number: TrayNumber
    name: int
    """What it is called by, whoever has its number by now."""
    template: CropTemplate
    state: TrayState
    joined_at: datetime
    run: int = 1
    lot: str = ""
    seed_grams: float | None = None
    stage_hours: Mapping[str, float] = field(default_factory=dict)
    place: str = ""
    on_shelf: str = ""
    """Whether its slot is at an end of its shelf or in the middle."""
    around: Surroundings = Surroundings()
    said: Happenings = field(default_factory=Happenings)

    @property
    def ended(self) -> bool:
        """Whether the tray is off the rack."""
        return not self.state.live

    @property
    def days(self) -> float | None:
        """Days from sowing to the cut; None where it is not cut."""
        state = self.state
        if state.status != "cut" or state.sown_at is None or state.ended_at is None:
            return None
        return (state.ended_at - state.sown_at).total_seconds() / 86_400


def stage_hours(
    template: CropTemplate, deeds: Iterable[Deed], hours: RoomHours, now: datetime
) -> dict[str, float]:
    """The hours that a tray was in each stage, for stages that are over."""
    state = TrayState()
    spent: defaultdict[str, float] = defaultdict(float)

    def left(before: TrayState, after: TrayState) -> TrayState:
        if before.status == "growing" and before.stage_since is not None:
            over = after.ended_at if not after.live else after.stage_since
            if over is not None and (not after.live or over != before.stage_since):
                lasted = (over - before.stage_since).total_seconds() / 3600
                spent[template.stages[before.stage].name] += lasted
        return after

    def passed(before: TrayState, until: datetime) -> TrayState:
        """Pass by one stage at a time, so that each gets its own hours."""
        while before.status == "growing" and before.stage_since is not None:
            end = stage_end(before.stage_since, template.stages[before.stage])
            after = pass_by(before, template, until if end is None else min(end, until))
            if after == before:
                break
            before = left(before, after)
        return before

    moving = (deed for deed in deeds if kind_of(deed.kind).answers not in RECURRING)
    for deed in sorted(moving, key=lambda deed: (deed.at, deed.entry)):
        state = passed(state, deed.at)
        state = left(state, step(state, template, deed, hours))
    passed(state, now)
    return dict(spent)
