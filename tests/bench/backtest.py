"""Back-tests of simulated rooms: what ranges of 4 in 5 held, and how far off expectations were.

Run by hand: python -m tests.bench.backtest [ROOMS] [DRAW]. Each room sows a crop twice a week for a
year, six trays a batch; batches spread by 8 % and trays by 9 %. The template's guess is right. Of
"two shelves" each tray stands on one of two that are 12 % apart; of "seed" a batch has 24, 30 or 38 g
a tray and gives by their root; of "seasons" a crop is sown every third week for six years, and winter gives
27 % more than summer.
"""

import math
import random
import sys
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.yields.backtest import Backtest, backtest
from logbook.growing.yields.trays import GoneTray

DAY = 86_400
MEAN, BATCH, TRAY = 300.0, 0.08, 0.09
KINDS = ("steady", "drifting", "two shelves", "heavy tails", "seed", "seasons")
APART = {"seasons": 42}
"""Days from one sowing to the next but one, where it isn't a week."""
TEMPLATE = CropTemplate(
    name="radish", crop="radish", stages=(Stage("light", None, light="lit"),),
    cut=CutWindow(4 * DAY, 6 * DAY, 8 * DAY), expected_grams=MEAN, spread_percent=18,
)  # fmt: skip
START = datetime(2026, 1, 5, 8, tzinfo=UTC)


def room(kind: str, luck: random.Random, batches: int = 104) -> Iterator[GoneTray]:
    """The trays of a room of a kind, in the order of their cut."""
    mean = MEAN
    for batch in range(batches):
        if kind == "drifting":
            mean *= math.exp(luck.gauss(0, 0.01))
        of_batch = mean * (1 + luck.gauss(0, BATCH))
        apart = APART.get(kind, 7)
        end = START + timedelta(days=apart * (batch // 2) + apart // 2 * (batch % 2))
        seed = luck.choice((24.0, 30.0, 38.0)) if kind == "seed" else 30.0
        of_batch *= math.sqrt(seed / 30)
        if kind == "seasons":
            of_batch *= 1 + 0.12 * math.cos(2 * math.pi * (end - START).days / 365.25)
        for tray in range(6):
            own = luck.gauss(0, TRAY)
            if kind == "heavy tails":  # t with 4 degrees of freedom, of the same spread
                own = (
                    TRAY * luck.gauss(0, 1) / math.sqrt(luck.gammavariate(2, 2) / 4) / math.sqrt(2)
                )
            here = (
                of_batch * (1 + own) * (1 + (0.06 if tray % 2 else -0.06) * (kind == "two shelves"))
            )
            yield GoneTray(
                batch * 6 + tray, batch, "radish", TEMPLATE, end - timedelta(days=8), end, end,
                max(1.0, here), place=f"Rack 1/Shelf {1 + tray % 2}", seed_grams=seed,
            )  # fmt: skip


def day_of(one: GoneTray) -> date:
    """The day of its cut."""
    return one.ended_at.date()


def replayed(kind: str, rooms: int, draw: int, batches: int = 104) -> Backtest:
    """The mean over rooms of a kind."""
    luck = random.Random(f"{kind} {draw}")
    found = [backtest(room(kind, luck, batches), day_of) for _ in range(rooms)]

    def mean(name: str) -> float:
        return sum(float(getattr(one, name)) for one in found) / rooms

    return Backtest(
        sum(one.trays for one in found), mean("trays_inside_percent"), sum(one.days for one in found),
        mean("days_inside_percent"), mean("error_percent"), mean("plain_error_percent"),
    )  # fmt: skip


def main() -> None:
    """Print the table."""
    rooms = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    draw = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    for kind in KINDS:
        found = replayed(kind, rooms, draw)
        ratio = (found.error_percent or 0) / (found.plain_error_percent or 1)
        print(
            f"{kind:12} trays inside {found.trays_inside_percent:.1f} %, days inside "
            f"{found.days_inside_percent:.1f} %, error {found.error_percent:.2f} %, plain mean "
            f"{found.plain_error_percent:.2f} %, ratio {ratio:.3f}"
        )


if __name__ == "__main__":
    main()
