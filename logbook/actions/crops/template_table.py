"""Crop templates in columns: seed, soak, days to the cut, and what to expect."""

from logbook.actions.crops.templates import TemplateView
from logbook.growing.measures import GRAMS, Units, number_words, range_words, span_words, weighing
from logbook.growing.table import Column


def _days(one: TemplateView) -> str:
    template = one.template
    return number_words((template.planned_seconds() + template.cut.best_seconds) / 86_400)


def _basis(one: TemplateView) -> str:
    words = "not known" if one.expected is None else one.expected.basis
    return f"{words}, retired" if one.retired else words


def template_columns(units: Units) -> tuple[Column[TemplateView], ...]:
    """Their columns, in the units of the room."""
    unit = weighing(units).unit

    def seed(one: TemplateView) -> str:
        grams = one.template.seed_grams
        return "" if grams is None else number_words(grams / GRAMS[unit], 1)

    def expected(one: TemplateView) -> str:
        if one.expected is None:
            return ""
        words = range_words(one.expected.low, one.expected.high, units)
        return words.removesuffix(f" {unit}")

    def soak(one: TemplateView) -> str:
        return span_words(one.template.soak_seconds) if one.template.soak_seconds else ""

    return (
        Column("crop", lambda one: one.template.name, right=False),
        Column("version", lambda one: str(one.template.version), spare=4),
        Column("seed", seed, unit, spare=2),
        Column("soak", soak, spare=3),
        Column("to cut", _days, "d"),
        Column("expected", expected, unit),
        Column("based on", _basis, right=False, spare=1),
    )
