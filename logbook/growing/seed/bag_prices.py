"""What seed cost that was drawn from a lot whose bags had several prices."""

from collections import deque
from decimal import Decimal

from logbook.growing.currencies import exact
from logbook.growing.seed.bags import Draw, LotStock, SaidWeight

Left = deque[tuple[Decimal, Decimal | None]]
"""What is left of each bag, g, and what a kilogram of it cost; the oldest bag first."""


def draw_costs(stock: LotStock) -> list[Decimal | None]:
    """What each of a lot's draws cost, in their order: the bag bought first is used first.

    None where grams or a price isn't known. What was drawn before the first bag costs what that did,
    what was drawn beyond all of them what the last did. By a weighing the oldest seed is gone first;
    where there is more than was left, it is of the newest bag.
    """
    first = min(stock.bags, key=lambda bag: (bag.bought, bag.entry), default=None)
    left: Left = deque([(Decimal(0), None if first is None else first.price_per_kg)])
    found = []
    for each in stock.events:
        if isinstance(each, Draw):
            found.append(None if each.grams is None else _taken(left, exact(each.grams)))
        elif isinstance(each, SaidWeight):
            more = exact(each.grams) - sum(grams for grams, _ in left)
            if more < 0:
                _taken(left, -more)
            else:
                left[-1] = (left[-1][0] + more, left[-1][1])
        else:
            left.append((exact(each.grams), each.price_per_kg))
    return found


def _taken(left: Left, grams: Decimal) -> Decimal | None:
    """Take grams from the oldest bags; what they cost."""
    rest, parts = grams, list[tuple[Decimal, Decimal | None]]()
    while len(left) > 1 and rest >= left[0][0]:
        parts.append(left.popleft())
        rest -= parts[-1][0]
    held, price = left[0]
    left[0] = (max(Decimal(0), held - rest), price)
    parts.append((rest, price))
    prices = [each if each is None else each * much / 1000 for much, each in parts if much]
    known = [each for each in prices if each is not None]
    return sum(known, Decimal(0)) if len(known) == len(prices) else None
