"""The questions about customers and what they order."""

from collections.abc import Mapping
from typing import Any

from logbook.actions.orders.customers import CustomerDraft
from logbook.actions.orders.listing import OrderLine
from logbook.actions.orders.mixes import MixView
from logbook.growing.measures import number_words
from logbook.growing.orders.customer import CUSTOMER_KINDS, Customer
from logbook.growing.wall_hours import wall_words
from logbook.text import yes_no
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field

NEW = Customer(0, "", "kitchen")


def customer_form(customer: Customer = NEW) -> AskForm[CustomerDraft]:
    """Ask what is known of a customer from now on, or of a new one."""
    hour = "" if customer.minute is None else wall_words(customer.minute)
    fields = (
        Field("name", "name", "", customer.name, needed="Who is it? Write a name."),
        Field("kind", "kind", "a stall takes what is left", customer.kind, offers=CUSTOMER_KINDS,
              pick=True),
        Field("contact", "contact", "may stay empty", customer.contact),
        Field("days", "delivery days", "like tue,fri", customer.weekdays),
        Field("hour", "hour", "like 06:00; empty: the room's", hour),
        Field("near", "near", "y: your state, or within 275 miles",
              {None: "", True: "y", False: "n"}[customer.near], lambda text: yes_no(text, "Near"),
              optional=True),
    )  # fmt: skip

    def make(values: Mapping[str, Any]) -> CustomerDraft:
        return CustomerDraft(**{**values, "name": customer.name or values["name"]},
                             new_name=values["name"])  # fmt: skip

    return AskForm(customer.name or "A new customer", fields, make)


def mix_form(mix: MixView | None) -> AskForm[Mapping[str, Any]]:
    """Ask what is in a mix from a day on, or in a new one."""
    least = min(each.share_percent for each in mix.parts) if mix else 1.0
    parts = mix and " + ".join(
        f"{number_words(each.share_percent / least, 2)} {each.crop}" for each in mix.parts
    )
    name = Field("name", "name", "like salad mix", mix.name if mix else "",
                 needed="What is it called? Write a name.")  # fmt: skip
    about = (
        Field("parts", "parts", "by weight, like 2 radish + 1 pea shoots", parts or ""),
        Field("since", "from", "empty: today"),
    )
    fields = (*about, name) if mix else (name, *about)
    return AskForm(mix.name if mix else "A new mix", fields,
                   lambda values: {**values, "of": mix.name if mix else ""})  # fmt: skip


def order_form(line: OrderLine) -> AskForm[Mapping[str, Any]]:
    """Ask what changes of an order; of a standing line also from which day and until when."""
    standing = bool(line.weekdays)
    fields = (
        Field("text", "what", "like radish 6 x 50g every tue,fri", line.text),
        Field("price", "price per pack", "may stay empty",
              "" if line.price_per_pack is None else f"{line.price_per_pack:f}"),
        Field("since", "from", "empty: today", shown=standing),
        Field("until", "until", "empty: no end", line.until.isoformat() if line.until and standing else "",
              shown=standing),
    )  # fmt: skip
    return AskForm(f"{line.customer}: {line.crop}", fields, lambda values: values)
