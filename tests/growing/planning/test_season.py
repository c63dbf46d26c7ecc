"""A plan takes the season in which its trays are cut."""

import math
from random import Random

import pytest

from logbook.growing.crops.conditions import Shifts
from logbook.growing.orders.wishes import CropPart
from logbook.growing.planning.plan import Crop, plan_for
from logbook.growing.planning.promise import asked
from tests.bench.short_deliveries import a_luck
from tests.room import HOURS, field_test, moment


def test_what_gives_less_in_summer_takes_more_trays_in_summer() -> None:
    """The mean is 1.1 times the year's in January (e to the 0.1), 0.9 times in July."""
    crop = Crop(field_test(), a_luck(Random(3), 20, 5), 1.0, Shifts(season=(0.1, 0.0)))
    now, trays, grams = moment("2026-12-01 08:00"), [], []
    for day in ("2027-01-01 12:00", "2027-07-01 12:00"):
        delivery = asked(CropPart(1, 6000.0), moment(day), HOURS)
        plan = plan_for([delivery], [], [], {1: crop}, HOURS, now, 0.9)
        (sowing,) = plan.sowings
        trays.append(sowing.trays)
        grams.append(crop.tray_grams(sowing.back.cut_at))
    assert trays[0] < trays[1]
    assert grams[0] / grams[1] == pytest.approx(math.exp(0.2), rel=0.01)
