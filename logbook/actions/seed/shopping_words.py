"""A shopping list in words."""

from collections.abc import Iterator

from logbook.actions.seed.shopping import ShoppingList
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.seed.shopping import SeedToBuy
from logbook.text import plural


def to_buy_lines(found: ShoppingList, units: Units) -> Iterator[tuple[str, str]]:
    """What to buy: how much of what, and the rest of it; what is enough is left out."""
    for each in found.short:
        yield grams_words(each.buy_grams, units), to_buy_words(each, found, units)
    for by, pace in found.ending:
        order = "today" if by <= found.today else f"by {day_words(by)}"
        yield (
            "",
            (
                f"{pace.crop} seed: {grams_words(pace.have_grams, units)} left, at "
                f"{grams_words(pace.grams_per_week, units)} a week it lasts until "
                f"{day_words(pace.runs_out or by)}: order {order}"
            ),
        )
    for medium in found.media:
        yield "", f"{medium.medium} for {plural(medium.trays, 'tray')}"


def to_buy_words(one: SeedToBuy, found: ShoppingList, units: Units) -> str:
    """Why seed of a crop is to be bought, by when, from whom and for how much."""
    need, parts = one.need, list[str]()
    if need.have_grams is None:
        parts.append("needed; what is left is not known")
    elif need.runs_out and one.buy_by:
        late = one.buy_by <= found.today
        parts.append(
            f"{grams_words(need.have_grams, units)} left, runs out {day_words(need.runs_out)}: "
            f"order {'today' if late else f'by {day_words(one.buy_by)}'}"
        )
    if one.supplier:
        parts.append(f"last from {one.supplier}")
    if one.cost is not None:
        parts.append(f"about {found.money.total(one.cost)}")
    return ", ".join((f"{one.crop} seed", *parts))
