"""A room to test in: its moments, a crop of its own, and short ways to say what happens to a tray."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_fields import record_from
from logbook.growing.crops.template_text import template_from
from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.measures import Units
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.life import Deed, TrayState, fold_tray
from logbook.growing.trays.tray_now import StoredTray

LONDON = ZoneInfo("Europe/London")
NEW_YORK = ZoneInfo("America/New_York")
HOURS = RoomHours(LONDON)
DAY = 86_400
HOUR = 3_600

FIELD_TOML = """\
crop = "field test"
seed_grams = 100
soak = "4h"
expected_grams = 500
spread_percent = 15
sign_to_cut = "first true leaves"
[[stages]]
name = "weighted"
length = "4d"
cover = "weight"
light = "dark"
water = "mist"
water_per_day = 1
looks_per_day = 1
[[stages]]
name = "blackout"
length = "1d"
cover = "lid"
light = "dark"
[[stages]]
name = "light"
light = "lit"
water = "bottom"
water_per_day = 1
[cut]
from = "2d"
best = "60h"
by = "4d"
"""


def field_test(**changes: Any) -> CropTemplate:
    """Give the crop of FIELD_TOML: 4 h soak, 4 d under weight, 1 d blackout, then light."""
    return replace(template_from(tomllib.loads(FIELD_TOML)), **changes)


def crop_of(
    *stages: Stage, cut: CutWindow | None = None, name: str = "odd", **more: Any
) -> CropTemplate:
    """Give a crop with stages of a grower's own."""
    window = cut or CutWindow(2 * DAY, 3 * DAY, 4 * DAY)
    return CropTemplate(name=name, crop=name, stages=stages, cut=window, **more)


def a_tray(number: int, batch: int = 1) -> StoredTray:
    """A tray as it is stored, with nothing of its own but its number and its batch."""
    return StoredTray(number, number, batch, 1, "", live=True)


def targets_from(wanted: Mapping[str, Any] | None, units: Units = "metric") -> Targets:
    """Read what a crop wants, as the [targets] table of a template's file holds it."""
    return record_from(Targets, wanted or {}, "The table of targets", units)


def moment(text: str, zone: ZoneInfo = LONDON) -> datetime:
    """Read a wall time of the room ("2026-04-14 07:42") as a moment in UTC."""
    return datetime.fromisoformat(text).replace(tzinfo=zone).astimezone(UTC)


def wall_words(at: datetime, zone: ZoneInfo = LONDON) -> str:
    """Write a moment as the wall clock of the room shows it: "2026-04-14 07:42"."""
    return f"{at.astimezone(zone):%Y-%m-%d %H:%M}"


def day(text: str) -> date:
    """Read a day."""
    return date.fromisoformat(text)


def tray_after(
    template: CropTemplate, deeds: Iterable[Deed], now: datetime, hours: RoomHours = HOURS
) -> TrayState:
    """Give the state of a tray after its deeds, numbered here in the order given."""
    numbered = [replace(deed, entry=number) for number, deed in enumerate(deeds, 1)]
    return fold_tray(template, numbered, hours, now)


def sown(at: datetime) -> Deed:
    """Give a sowing."""
    return Deed(0, "sow", at)


def changed(at: datetime, stage: int) -> Deed:
    """Give a change into a stage."""
    return Deed(0, "change", at, stage=stage)


def watered(at: datetime) -> Deed:
    """Give a watering."""
    return Deed(0, "water", at)


def skipped(at: datetime, chore: str) -> Deed:
    """Give a skip of a chore."""
    return Deed(0, "skip", at, chore=chore)
