"""How often deliveries are whole that a plan has sown for, against the chance that it promised.

Run by hand from the project's folder: python -m tests.bench.short_deliveries [WEEKS [DRAW]]. Each
week is a delivery whose trays are sown as the plan says; trays of the sowing share their luck. Where
the spread is known the promise is held to one point of 100, where it is learned from 40 trays of
eight sowings to three. Rooms are invented: a tray gives 300 g, sowings and trays differ by 8 and 9 %.
"""

import sys
from collections.abc import Sequence
from datetime import timedelta
from random import Random

from logbook.growing.crops.luck import Luck, batch_weights, luck_of
from logbook.growing.crops.yields import Meant
from logbook.growing.orders.cover import ToCut, covers
from logbook.growing.orders.wishes import CropPart
from logbook.growing.planning.plan import Crop, plan_for
from logbook.growing.planning.promise import asked
from tests.room import HOURS, field_test, moment

MEAN, BATCH, TRAY = 300.0, 24.0, 27.0
NOW = moment("2026-04-01 08:00")
ORDERS = (400.0, 1000.0, 1700.0, 3000.0)


def a_luck(draw: Random, sowings: int, trays: int) -> Luck:
    """What a room has learned from so many sowings of so many trays."""
    weights = []
    for batch in range(sowings):
        mean = draw.gauss(MEAN, BATCH)
        weights += [(batch, draw.gauss(mean, TRAY), False) for _ in range(trays)]
    found = luck_of(None, batch_weights(weights))
    assert found is not None
    return found


def planned(luck: Luck, grams: float, sure: float) -> tuple[int, float]:
    """How many trays a plan sows for a delivery, and what chance it promises."""
    delivery = asked(CropPart(1, grams), NOW + timedelta(days=14), HOURS)
    plan = plan_for([delivery], [], [], {1: Crop(field_test(), luck)}, HOURS, NOW, sure)
    ((_, (line,)),) = plan.deliveries
    return line.trays, line.cover.chance


def is_whole(draw: Random, trays: int, grams: float) -> bool:
    """Whether so many trays of a sowing give what is to be packed."""
    return draw.gauss(trays * draw.gauss(MEAN, BATCH), TRAY * trays**0.5) >= grams


def known_spread(weeks: int, draw: Random, sure: float = 0.9) -> list[tuple[float, float]]:
    """Of each order the promised chance and how often it was whole, where the room knows its spread."""
    luck, found = a_luck(draw, 400, 10), []
    for grams in ORDERS:
        trays, chance = planned(luck, grams, sure)
        whole = sum(is_whole(draw, trays, grams) for _ in range(weeks))
        found.append((chance, whole / weeks))
    return found


def learned_spread(rooms: int, weeks: int, draw: Random, sure: float = 0.9) -> tuple[float, float]:
    """The mean promised chance and how often it was whole, over rooms that have weighed 40 trays."""
    promised = whole = 0.0
    for place in range(rooms):
        luck, grams = a_luck(draw, 8, 5), ORDERS[place % len(ORDERS)]
        trays, chance = planned(luck, grams, sure)
        promised += chance
        whole += sum(is_whole(draw, trays, grams) for _ in range(weeks)) / weeks
    return promised / rooms, whole / rooms


def sharing(
    weeks: int, draw: Random, wanted: Sequence[float], sown: Sequence[int]
) -> list[tuple[float, float]]:
    """Of deliveries two days apart that share trays: the promised chance, and how often each was whole.

    So many trays of a sowing come for each; what a delivery leaves over keeps for all after it, and
    what it lacks it stays short of.
    """
    luck, two_days = a_luck(draw, 400, 10), timedelta(days=2)
    deliveries = [
        asked(CropPart(1, grams), NOW + place * two_days, HOURS)
        for place, grams in enumerate(wanted)
    ]
    far = NOW + timedelta(days=30)
    trays = [
        ToCut(
            number,
            1,
            NOW + batch * two_days - timedelta(days=1),
            far,
            far,
            Meant(luck, 9_000 + batch),
        )
        for batch, count in enumerate(sown)
        for number in range(100 * batch, 100 * batch + count)
    ]
    promised = [one.chance for (one,) in covers(deliveries, [], trays, {}, NOW, {1})]
    whole = [0] * len(wanted)
    for _ in range(weeks):
        left = 0.0
        for place, (grams, count) in enumerate(zip(wanted, sown, strict=True)):
            left += draw.gauss(count * draw.gauss(MEAN, BATCH), TRAY * count**0.5)
            whole[place] += left >= grams
            left = max(0.0, left - grams)
    return [(chance, each / weeks) for chance, each in zip(promised, whole, strict=True)]


SHARED = (
    ((1500.0, 1200.0, 1500.0), (5, 4, 5)),
    ((1700.0, 1000.0, 1400.0), (5, 4, 5)),
    ((1300.0, 1300.0, 1300.0), (5, 4, 5)),
    ((3000.0, 1000.0, 1700.0), (5, 4, 6)),
)
"""Deliveries that are about even, whose first is short, that have some left over, whose first lacks half."""


def main() -> None:
    """Print the tables."""
    weeks = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    draw = Random(int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    for sure in (0.8, 0.9, 0.95):
        for grams, (chance, whole) in zip(ORDERS, known_spread(weeks, draw, sure), strict=True):
            print(f"known, {sure:.0%}, {grams:g} g: promised {chance:.1%}, whole {whole:.1%}")
        chance, whole = learned_spread(weeks // 20, 20, draw, sure)
        print(f"from 40 trays, {sure:.0%}: promised {chance:.1%}, whole {whole:.1%}")
    for wanted, sown in SHARED:
        for grams, (chance, whole) in zip(wanted, sharing(weeks, draw, wanted, sown), strict=True):
            print(f"sharing trays, {grams:g} g: promised {chance:.1%}, whole {whole:.1%}")


if __name__ == "__main__":
    main()
