"""The letter of a recall to one customer, as plain text."""

from datetime import date

from logbook.growing.days import day_words
from logbook.growing.measures import Units
from logbook.growing.recall.recall import CalledCustomer

ASKS = (
    (
        "Please don't use, serve or sell it. Keep what is left apart, closed and marked; don't throw "
        "it away."
    ),
    "Please tell us today how much you have left, and who you passed any of it to.",
)


def letter(customer: CalledCustomer, today: date, maker: str, address: str, units: Units) -> str:
    """What is sent to a customer; who sends it is `maker` at `address`, blanks where nobody said."""
    head = [f"To: {customer.name}" + (f" ({customer.contact})" if customer.contact else "")]
    sender = [maker or "From: ____________________", *(line for line in address.splitlines())]
    lines = [f"- {each.words(units)}" for each in customer.deliveries]
    lines += [f"- no lot written, {each.what}: perhaps" for each in customer.may]
    return "\n".join(
        [
            *sender, day_words(today) + f" {today.year}", "", *head, "",
            "RECALL", "", "Something may be wrong with what we delivered to you:", *lines, "",
            *ASKS, "",
        ]
    )  # fmt: skip
