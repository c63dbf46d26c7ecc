"""What the invented room sows, week by week, and what it has planned."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Habit:
    """One crop, sown again every so many days.

    `age` is how many days ago the youngest batch was sown; older ones follow every `every` days
    back. `rack` is where they go to the light. `turns` makes the change into that stage of the
    youngest batch fall at a moment of today: "now" is a short while ago, a number is that share
    of what is left of the day. `walked` are the ages that this morning's round has passed already.
    """

    crop: str
    trays: int
    age: int
    rack: str
    every: int = 7
    minute: int = 30
    turns: tuple[int, str | float] | None = None
    walked: tuple[int, ...] = ()
    together: bool = False
    colour: str = ""


HABITS = (
    Habit("sunflower", 3, 2, "Rack 1", walked=(2, 9), colour="yellow"),
    Habit("sunflower", 2, 6, "Rack 1", minute=50, walked=(6,)),
    Habit("pea shoots", 3, 5, "Rack 2", minute=40, colour="green"),
    Habit("radish", 3, 3, "Rack 2", turns=(2, "now")),
    Habit("radish, pink stem", 2, 1, "Rack 3", walked=(1, 8), colour="pink"),
    Habit("broccoli", 2, 3, "Rack 1", turns=(2, 0.6), walked=(3,)),
    Habit("mustard", 2, 6, "Rack 2", minute=20, walked=(6,)),
    Habit("kale", 2, 3, "Rack 3"),
    Habit("rocket", 2, 6, "Rack 2", minute=20, together=True),
    Habit("beet", 2, 4, "Rack 3", turns=(1, "now"), walked=(4, 11)),
    Habit("basil", 2, 12, "Rack 3", every=14, walked=(12,)),
    Habit("coriander", 2, 10, "Rack 3", every=14, walked=(10,)),
    Habit("chard", 4, 5, "Rack 2", every=14, turns=(2, "now")),
    Habit("red amaranth", 2, 7, "Rack 3", every=14, walked=(7,)),
    Habit("cress", 2, 2, "Rack 1", every=14, walked=(2,), together=True),
    Habit("wheatgrass", 2, 2, "Rack 1", every=14, turns=(2, 0.35), walked=(2,), colour="white"),
)


@dataclass(frozen=True, slots=True)
class Plan:
    """A batch still to be sown: "tonight" soaks later today, "now" is soaked and to be sown,
    "tomorrow" is for the morning.
    """  # noqa: D205

    crop: str
    trays: int
    when: str
    rack: str
    note: str = ""


PLANS = (
    Plan("pea shoots", 3, "tonight", "Rack 2", "double for the market [Saturday]"),
    Plan("sunflower", 2, "now", "Rack 1"),
    Plan("broccoli", 3, "tomorrow", "Rack 1"),
)
