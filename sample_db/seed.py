"""The bags of seed that the invented room bought last, and what was counted of one."""

from collections.abc import Mapping
from decimal import Decimal

from logbook.actions.seed.writing import buy_seed, count_seedlings, weigh_seed
from logbook.growing.seed.bags import Bag
from sample_db.crops import WEEKS_PER_LOT, lot_of
from sample_db.world import World

BOUGHT = 7 * WEEKS_PER_LOT + 2
"""So many days ago, before the first sowing from these lots."""
BAGS: Mapping[str, tuple[float, str, float]] = {
    "radish": (2_000, "24.00", 92), "pea shoots": (10_000, "31.50", 88),
    "sunflower": (6_000, "27.00", 90), "broccoli": (1_000, "29.00", 86),
}  # fmt: skip
"""Of each crop g, the price of the bag, and what its label says comes up, in %."""
SUPPLIER = "Marsh Lane Seeds"
COUNTED, SOWN, UP = 20, 100, 71
"""Days ago, and what came up of the broccoli then: fewer than its label says."""
WEIGHED, LEFT = 6, 380.0


def await_seed(world: World) -> None:
    """Buy the bags, count one and weigh it, each on its day."""
    days = world.days
    for crop, (grams, price, percent) in BAGS.items():
        bought = days.on(BOUGHT).date()
        bag = Bag(
            lot_of(crop, 0), crop, grams, bought, SUPPLIER, Decimal(price), percent, treated=False
        )
        world.await_act(days.on(BOUGHT, 5), buy_seed, bag)
    lot = lot_of("broccoli", 0)
    world.await_act(days.on(COUNTED, 5), count_seedlings, lot, SOWN, UP)
    world.await_act(days.on(WEIGHED, 5), weigh_seed, lot, LEFT)
