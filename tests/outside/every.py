"""All outside checks of the room in one list; those of trials are in tests/growing/trials."""

from __future__ import annotations

from tests.outside.check import Check
from tests.outside.light_and_air import air, light
from tests.outside.power_water_seed import power, seed, units, water, yields

PARTS = (light, air, units, power, water, seed, yields)


def every() -> list[Check]:
    """Every check, part by part."""
    return [check for part in PARTS for check in part()]
