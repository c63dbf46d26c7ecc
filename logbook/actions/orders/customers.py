"""Customers: looking, adding, changing, removing, and when they take nothing."""

from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.days import day_words
from logbook.growing.orders.customer import Customer, customer_kind
from logbook.growing.orders.weekdays import read_weekdays, weekdays_words
from logbook.growing.wall_hours import wall_words
from logbook.growing.wall_reading import wall_time
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.orders import last_got, read_customers
from logbook.text import Refused, clean_name, clean_words, fold, nearest
from logbook.ways import Way

ALIKE = 0.75
"""Names whose words are the same to so much may mean one customer (difflib's ratio)."""


@dataclass(frozen=True, slots=True)
class CustomerDraft:
    """A customer as they are said; None leaves what there is."""

    name: str
    new_name: str | None = None
    kind: str | None = None
    contact: str | None = None
    days: str | None = None
    hour: str | None = None
    near: bool | None = None


def list_customers(book: Book) -> list[Customer]:
    """Those that are customers now, by name."""
    with book.reading() as reading:
        return [each for each in read_customers(reading) if not each.gone]


def find_customer(reading: Reading, name: str, *, gone: bool = False) -> Customer:
    """The customer of a name, or of a beginning that only one has; else Refused. Also one that is `gone`."""
    known = [each for each in read_customers(reading) if gone or not each.gone]
    wanted = fold(name)
    for exact in (
        [each for each in known if fold(each.name) == wanted],
        [each for each in known if wanted and fold(each.name).startswith(wanted)],
    ):
        if len(exact) == 1:
            return exact[0]
    near = nearest(name, [each.name for each in known])
    raise Refused(
        f'There is no customer "{name[:60]}".{near} {Way.CUSTOMERS} lists them.', "customer"
    )


def customer_named(act: Act, name: str) -> tuple[Customer, str]:
    """The customer of exactly this name, made where there is none, with a sentence that says so.

    Raises Refused where a name is so like a known one that it may be a slip.
    """
    known = [each for each in read_customers(act.reading) if not each.gone]
    wanted = fold(clean_name(name, "customer's name"))
    for each in known:
        if fold(each.name) == wanted:
            return each, ""
    for each in known:
        if _alike(fold(each.name), wanted):
            raise Refused(
                f'Do you mean "{each.name}"? Write that name; if "{name[:60]}" is another '
                "customer, "
                f"add them first: {Way.CUSTOMER_ADD.of(repr_of(name))}.",
                "customer",
            )
    made = write_customer(act, Customer(0, clean_name(name), "kitchen"))
    return (
        made,
        f"{made.name} is added as a new customer (a kitchen); {Way.CUSTOMER_CHANGE} changes that.",
    )


def repr_of(name: str) -> str:
    """A name as an argument in the shell."""
    return f'"{clean_name(name)}"'


def _alike(one: str, other: str) -> bool:
    """Whether two folded names may be one, by the words in which they differ; also "x" and "x y"."""
    own, others = one.split(), other.split()
    left, right = (
        " ".join(word for word in words if word not in but)
        for words, but in ((own, others), (others, own))
    )
    return not left or not right or SequenceMatcher(None, left, right).ratio() >= ALIKE


def write_customer(act: Act, customer: Customer) -> Customer:
    """Write a customer as they are from now on; one with the id 0 is new. Returns them with their id."""
    entry = act.entry("customer", (), note=customer_words(customer))
    said: dict[str, Any] = {
        field: getattr(customer, field)
        for field in ("name", "kind", "contact", "weekdays", "minute", "gone", "near")
    }
    act.put(
        "customer", entry, customer_id=customer.id or entry, name_key=fold(customer.name), **said
    )
    return replace(customer, id=customer.id or entry)


def customer_words(customer: Customer) -> str:
    """Say who they are: "the chef: kitchen, Tue, Fri at 06:00"."""
    days = weekdays_words(customer.weekdays) if customer.weekdays else ""
    hour = "" if customer.minute is None else f"at {wall_words(customer.minute)}"
    gone = "not a customer any more" if customer.gone else customer.kind
    near = {None: "", True: "near", False: "not near"}[customer.near]
    parts = (gone, f"{days} {hour}".strip(), customer.contact, near)
    return f"{customer.name}: {', '.join(filter(None, parts))}"


def put_customer(book: Book, draft: CustomerDraft, *, new: bool) -> Done:
    """Add a customer, or change one from now on; raises Refused for a name that another has."""
    with book.writing() as act:
        known = [each for each in read_customers(act.reading) if not each.gone]
        before = Customer(0, "", "kitchen") if new else find_customer(act.reading, draft.name)
        name = clean_name(draft.name if new else draft.new_name or before.name, "customer's name")
        for each in known:
            if each.id != before.id and fold(each.name) == fold(name):
                raise Refused(
                    f'There is already a customer "{each.name}"; choose another name.',
                    "name",
                )
        after = replace(
            before,
            name=name,
            kind=before.kind if draft.kind is None else customer_kind(draft.kind),
            contact=_told(draft.contact, before.contact, "contact"),
            weekdays=before.weekdays if draft.days is None else read_weekdays(draft.days),
            minute=before.minute if draft.hour is None else hour_from(draft.hour),
            near=before.near if draft.near is None else draft.near,
        )
        if after == before:
            raise Refused(f"{before.name} is like that already; nothing was written.")
        made = write_customer(act, after)
        alike = [each.name for each in known if new and _alike(fold(each.name), fold(name))]
        notices = [f'"{alike[0]}" is another customer: check which one you mean.'] if alike else []
        return done_of(act, customer_words(made), (), notices)


def _told(given: str | None, before: str, what: str) -> str:
    return before if given is None else clean_words(given, what)


def hour_from(text: str) -> int | None:
    """Read an hour of delivery, in minutes after midnight; None for "none"; raise Refused."""
    return None if fold(text) in ("", "none") else wall_time(text, "hour of delivery")


def remove_customer(book: Book, name: str) -> Done:
    """Somebody isn't a customer any more: nothing is delivered to them from now on; the past stays."""
    with book.writing() as act:
        customer = replace(find_customer(act.reading, name), gone=True)
        write_customer(act, customer)
        notices = []
        if got := last_got(act.reading, customer.id):
            day = day_words(got, act.reading.today)
            notices = [
                f"{customer.name} has had deliveries, the last for {day}: a recall still names them."
            ]
        return done_of(act, customer_words(customer), (), notices)


def pause(book: Book, name: str, since: str, until: str | None, order: int | None = None) -> Done:
    """A customer takes nothing, or one standing line is left out, from a day until another."""
    with book.writing() as act:
        customer = find_customer(act.reading, name)
        if not until:
            raise Refused(
                "A pause needs an end: give its last day too. To end an order for good, stop it.",
                "until",
            )
        first = parse_day_ahead(since, act.now, act.reading.zone)
        last = parse_day_ahead(until, act.now, act.reading.zone, first)
        if last < first:
            raise Refused("A pause ends on or after the day on which it begins.", "until")
        if last < act.reading.today:
            raise Refused(f"{day_words(last)} is past. Pause days still to come.", "until")
        words = f"{customer.name}: nothing from {day_words(first, act.reading.today)} to {day_words(last, act.reading.today)}"
        entry = act.entry("pause", (), note=words)
        act.put(
            "order_pause", entry, customer_id=customer.id, order_id=order, since=first, until=last
        )
        return done_of(act, words, ())
