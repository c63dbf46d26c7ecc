"""The questions about customers and what they order."""

from collections.abc import Mapping
from typing import Any

from logbook.actions.orders.customers import CustomerDraft
from logbook.actions.orders.listing import OrderLine
from logbook.growing.orders.customer import CUSTOMER_KINDS, Customer
from logbook.growing.wall_hours import wall_words
from logbook.text import yes_no
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field


def customer_form(customer: Customer) -> AskForm[CustomerDraft]:
    """Ask what is known of a customer from now on."""
    hour = "" if customer.minute is None else wall_words(customer.minute)
    fields = (
        Field("new_name", "name", "", customer.name),
        Field("kind", "kind", "a stall takes what is left", customer.kind, offers=CUSTOMER_KINDS,
              pick=True),
        Field("contact", "contact", "may stay empty", customer.contact),
        Field("days", "delivery days", "like tue,fri", customer.weekdays),
        Field("hour", "hour", "like 06:00; empty: the room's", hour),
        Field("near", "near", "y: your State, or within 275 miles",
              {None: "", True: "y", False: "n"}[customer.near], lambda text: yes_no(text, "Near"),
              optional=True),
    )  # fmt: skip
    return AskForm(customer.name, fields, lambda values: CustomerDraft(customer.name, **values))


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
