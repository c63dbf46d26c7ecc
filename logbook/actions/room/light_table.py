"""The light of shelves in columns: a shelf a row."""

from logbook.actions.room.light import ShelfLight
from logbook.growing.measures import number_words
from logbook.growing.table import Column


def _ppfd(one: ShelfLight) -> str:
    return "" if one.newest is None else number_words(one.newest.even.mean, 0)


def _even(one: ShelfLight) -> str:
    even = None if one.newest is None else one.newest.even.min_over_mean
    return "" if even is None else f"{even:.2f}"


def verdict(one: ShelfLight) -> str:
    """What is to be said of a shelf in a word or two; "" where nothing is wanted."""
    if one.newest is None:
        return "not measured"
    wrong = {each.judgement.verdict for each in one.verdicts} - {"enough"}
    if wrong:
        return ", ".join(sorted(wrong))
    return "falling" if one.falling else "enough" if one.verdicts else "no target"


def wants(one: ShelfLight) -> bool:
    """Whether its verdict asks for something to be done."""
    return verdict(one) not in ("enough", "no target", "not measured")


LIGHT: tuple[Column[ShelfLight], ...] = (
    Column("shelf", lambda one: one.place.path, right=False),
    Column("PPFD", _ppfd, "µmol/m²/s"),
    Column("min/avg", _even, spare=2),
    Column("DLI", lambda one: "" if one.daily is None else f"{one.daily:.1f}", "mol/m²/d", spare=1),
    Column("hours", lambda one: one.place.hours_words.removeprefix("lit "), right=False, spare=3),
    Column("verdict", verdict, right=False),
)
