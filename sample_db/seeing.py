"""What a look at a tray sees, by how far it has grown."""

from __future__ import annotations

from datetime import datetime, timedelta

from logbook.growing.life import TrayState
from logbook.growing.looks import Look
from logbook.growing.templates import CropTemplate
from sample_db.dice import Dice

FULL_HEIGHT_MM = 75.0


def look_at(template: CropTemplate, state: TrayState, when: datetime, dice: Dice) -> Look:
    """Give what is seen of a growing tray; half of the looks find nothing worth a word."""
    if state.sown_at is None or state.stage_since is None or dice.chance(0.5):
        return Look()
    days = (when - state.sown_at) / timedelta(days=1)
    if template.stages[state.stage].light == "dark":
        emerged = min(98.0, 22.0 * days + dice.between(0, 12))
        return Look(emerged_percent=float(round(emerged)), mould="none" if days > 2 else "")
    lit = (when - state.stage_since) / timedelta(days=1)
    whole = template.cut.best_seconds / 86_400
    height = FULL_HEIGHT_MM * (0.35 + 0.65 * min(1.2, lit / whole)) * dice.between(0.92, 1.08)
    return Look(
        height_mm=float(round(height / 5) * 5),
        cotyledons_open=lit > whole / 3,
        hulls_on=lit < whole / 2 if template.crop == "sunflower" else None,
        stem_colour="pink" if template.variety == "pink stem" else "",
        uneven="thin along one edge" if dice.chance(0.06) else "",
    )
