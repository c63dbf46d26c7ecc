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
        Field("crop", "crop", "right completes", like.crop if like else "", offers=crops,
              read=lambda text: clean_name(text, "crop")),
        Field("lot", "lot number", "as on the bag", read=lambda text: clean_name(text, "lot number")),
        *_about_bag(units, today, day, None, last.supplier if last else ""),
    )  # fmt: skip
    return AskForm("A bag of seed that was bought", fields, lambda values: Bag(**values))


def bag_change_form(
    units: Units, today: date, day: Callable[[str], date], bag: Bag
) -> AskForm[tuple[str, Mapping[str, Any]]]:
    """Ask what is right of a bag, and why it is changed."""
    fields = (
        *_about_bag(units, today, day, bag, bag.supplier),
        Field("why", "why", "one word will do", needed="Please give a reason; one word will do."),
    )

    def make(values: Mapping[str, Any]) -> tuple[str, Mapping[str, Any]]:
        return values["why"], {name: each for name, each in values.items() if name != "why"}

    return AskForm(f"{bag.crop}, seed lot {bag.lot}", fields, make)


def _about_bag(
    units: Units, today: date, day: Callable[[str], date], bag: Bag | None, supplier: str
) -> tuple[Field, ...]:
    def had(name: str) -> Any:
        return getattr(bag, name) if bag else None

    def asked(name: str, label: str) -> Field:
        return Field(name, label, "y or n", _YES[had(name)], optional=True,
                     read=lambda text: yes_no(text, label.capitalize()))  # fmt: skip

    return (
        measured("grams", "weight", BAG, "like 1kg", had("grams"), units, needed=True),
        Field("supplier", "supplier", "may stay empty", supplier,
              lambda text: clean_words(text, "supplier")),
        measured("price", "price", BAG_PRICE, "of the whole bag", had("price")),
        Field("bought", "bought", "empty: today", f"{bag.bought}" if bag else "", read=day,
              optional=True, empty=today),
        measured("germination_percent", "germination", GERMINATION, "on the label, like 92%",
                 had("germination_percent")),
        Field("tested", "tested", "date on the label", f"{had('tested') or ''}", read=day,
              optional=True),
        asked("treated", "treated"),
        asked("for_food", "sold for food"),
        asked("organic", "organic"),
    )  # fmt: skip


_YES = {True: "y", False: "n", None: ""}


def count_form(lot: str) -> AskForm[Counted]:
    """Ask how many seeds of a lot came up."""
    fields = (
        Field("sown", "seeds sown", "like 100", read=SEEDS_SOWN.read),
        Field("up", "came up", "like 91", read=SEEDS_UP.read),
    )

    def make(values: Mapping[str, Any]) -> Counted:
        return Counted.checked(values["sown"], values["up"])

    return AskForm(f"Seedlings counted from seed lot {lot}", fields, make)


def weight_form(lot: str, units: Units) -> AskForm[float]:
    """Ask what is left of a lot."""
    field = measured("grams", "left", LEFT, "weighed; 0 for an empty bag", None, units, needed=True)
    return AskForm(f"What is left of seed lot {lot}", (field,), lambda values: values["grams"])
