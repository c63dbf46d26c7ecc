"""The questions about seed: a bag that was bought, seedlings that were counted, a bag that was weighed."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from logbook.growing.measures import Units
from logbook.growing.quantities import BAG, BAG_PRICE, GERMINATION, LEFT, SEEDS_SOWN, SEEDS_UP
from logbook.growing.seed.bags import Bag, LotStock
from logbook.growing.seed.counted import Counted
from logbook.text import clean_name, clean_words, yes_no
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field, measured

SEED = ("seed bought", "seed counted", "seed weighed")
"""The kinds of drafts of these questions; the screen of seed goes on with them."""


def bag_form(
    units: Units, crops: Sequence[str], today: date, day: Callable[[str], date],
    like: LotStock | None,
) -> AskForm[Bag]:  # fmt: skip
    """Ask for a bag that was bought; `like` is a lot whose crop and supplier it begins with."""
    last = like.newest if like else None
    fields = (
        Field("crop", "crop", "→ completes", like.crop if like else "", offers=crops,
              read=lambda text: clean_name(text, "crop")),
        Field("lot", "lot number", "as on the bag", read=lambda text: clean_name(text, "lot number")),
        measured("grams", "weight", BAG, "like 1kg", None, units, needed=True),
        Field("supplier", "supplier", "may stay empty", last.supplier if last else "",
              lambda text: clean_words(text, "supplier")),
        measured("price", "price", BAG_PRICE, "of the whole bag"),
        Field("bought", "bought", "empty: today", read=day, optional=True, empty=today),
        measured("germination_percent", "germination", GERMINATION, "on the label, like 92%"),
        Field("tested", "tested", "date on the label", read=day, optional=True),
        Field("treated", "treated", "y or n", optional=True,
              read=lambda text: yes_no(text, "Treated")),
        Field("for_food", "sold for food", "y or n", optional=True,
              read=lambda text: yes_no(text, "Sold for food")),
        Field("organic", "organic", "y or n", optional=True,
              read=lambda text: yes_no(text, "Organic")),
    )  # fmt: skip
    return AskForm("A bag of seed that was bought", fields, lambda values: Bag(**values))


def count_form(lot: str) -> AskForm[Counted]:
    """Ask how many seeds of a lot came up."""
    fields = (
        Field("sown", "seeds sown", "like 100", read=SEEDS_SOWN.read),
        Field("up", "came up", "like 91", read=SEEDS_UP.read),
    )

    def make(values: Mapping[str, Any]) -> Counted:
        return Counted.checked(values["sown"], values["up"])

    return AskForm(f"Seedlings of seed lot {lot}", fields, make)


def weight_form(lot: str, units: Units) -> AskForm[float]:
    """Ask what is left of a lot."""
    field = measured("grams", "left", LEFT, "weighed; 0 for an empty bag", None, units, needed=True)
    return AskForm(f"What is left of seed lot {lot}", (field,), lambda values: values["grams"])
