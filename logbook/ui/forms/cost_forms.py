"""The question about what something costs."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, NamedTuple

from logbook.growing.costs.rates import RATES, CostRate, rate_amount, rate_name
from logbook.text import Refused
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field

COST = "cost"
"""The kind of drafts of this question; the screen of costs goes on with it."""


class AskedRate(NamedTuple):
    """What was said: the rate, of which crop ('' for all), from which day."""

    name: str
    amount: Decimal
    crop: str
    since: date | None
    """None for the usual: today, of a first one the book's first day."""


def rate_form(
    name: str, old: CostRate | None, crops: Sequence[str], day: Callable[[str], date]
) -> AskForm[AskedRate]:
    """Ask what something costs; `name` is what the question begins with."""
    empty = "empty: today" if old else "empty: today; a first one from the book's first day"
    fields = (
        Field("name", "what", "right completes", name, read=rate_name, offers=tuple(RATES)),
        Field("amount", "costs or takes", "like 0.35", f"{old.amount:f}" if old else ""),
        Field("crop", "only for crop", "empty: all", old.crop if old else "", offers=crops),
        Field("since", "from", empty, read=day, optional=True),
    )

    def make(values: Mapping[str, Any]) -> AskedRate:
        try:
            amount = rate_amount(values["name"], values["amount"])
        except Refused as refused:
            raise Refused(str(refused), "amount") from refused
        return AskedRate(values["name"], amount, values["crop"], values["since"])

    return AskForm("What it costs, or takes", fields, make)
