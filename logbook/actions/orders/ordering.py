"""Ordering: what a customer texts becomes a single order or a standing line; changing and ending one."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.orders.customers import customer_named, list_customers
from logbook.actions.orders.deliveries import covered
from logbook.actions.orders.mixes import mixes_now
from logbook.actions.orders.wanted import crop_names, next_wish
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.orders.customer import Customer, Order
from logbook.growing.orders.order_text import MOST_AHEAD, Asked, day_ordered, read_order
from logbook.growing.orders.weekdays import weekdays_words
from logbook.growing.orders.wishes import CropPart, Wish, mix_on
from logbook.growing.planning.backward import backward, earliest
from logbook.growing.quantities import PACK_PRICE
from logbook.growing.wall_hours import wall_words
from logbook.growing.wall_reading import wall_time
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.orders import read_mixes, read_orders
from logbook.store.reads.templates import read_templates
from logbook.text import Refused, fold, listed, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class OrderDraft:
    """An order as it is said: the text of it, and what the text leaves out.

    `price` is per pack in the book's currency; `since` and `until` are days of a standing line.
    """

    customer: str
    text: str
    price: str = ""
    since: str = ""
    until: str = ""


@dataclass(frozen=True, slots=True)
class Ordered(Done):
    """An order as it was understood."""

    keys: ClassVar = "customer crop grams ready_at"

    customer: str = ""
    crop: str = ""
    """The crop template's name, or the mix's."""
    grams: float | None = None
    """In all; null for live trays."""
    ready_at: datetime | None = None
    """When it is wanted, or first wanted; null where the line is paused for a year to come."""


def order_from(book: Book, text: str) -> OrderDraft:
    """Take an order apart that begins with its customer: "Bistro: daikon 500g fri"; raises Refused.

    A customer that the book knows needs no colon; of two, one behind the other, the second is meant.
    """
    name, colon, rest = text.partition(":")
    if colon and not name.rstrip()[-1:].isdigit():
        offered, again, behind = rest.partition(":")
        typed_on = again and not offered.rstrip()[-1:].isdigit()
        return OrderDraft(offered, behind) if typed_on else OrderDraft(name, rest)
    for known in list_customers(book):
        if fold(text).startswith(f"{fold(known.name)} "):
            return OrderDraft(known.name, text[len(known.name) :])
    raise Refused('Who is it for? Write the customer and a colon first: "Bistro: daikon 500g fri".')


def order(book: Book, draft: OrderDraft) -> Ordered:
    """Write an order; an unknown customer is made, and said so. Raises Refused."""
    with book.writing() as act:
        return _written(act, draft)


def _written(act: Act, draft: OrderDraft) -> Ordered:
    reading = act.reading
    asked = read_order(draft.text, reading.now, reading.zone, reading.units)
    template, mix, _ = _what(reading, asked.crop)
    if mix is not None and asked.pack_grams is None:
        raise Refused("A mix is ordered by weight: live trays are of one crop.")
    price = PACK_PRICE.read(draft.price) if draft.price.strip() else None
    customer, new = customer_named(act, draft.customer)
    since, until, minute = _days(reading, asked, draft, customer)
    row = Order(
        0, 0, customer.id, template, mix, asked.packs, asked.pack_grams, asked.weekdays, minute,
        since, until, None if price is None else f"{price:f}",
    )  # fmt: skip
    return _put(act, row, customer, [new] if new else [])


def parts_of(reading: Reading, asked: Asked, day: date) -> tuple[str, list[CropPart]]:
    """The crop or mix that is asked for by name, and its parts on a day; raises Refused."""
    template, mix, name = _what(reading, asked.crop)
    grams = None if asked.pack_grams is None else asked.packs * asked.pack_grams
    if mix is None:
        return name, [CropPart(template or 0, grams or 0.0, 0 if grams else asked.packs)]
    if grams is None:
        raise Refused("A mix is ordered by weight: live trays are of one crop.")
    rows = [each for each in read_mixes(reading) if each.id == mix]
    return name, [CropPart(crop, grams * share) for crop, share in mix_on(rows, day).shares.items()]


def _what(reading: Reading, name: str) -> tuple[int | None, int | None, str]:
    """The template or the mix (id) of a name, and what it is called; raises Refused."""
    wanted = fold(name)
    for mix in mixes_now(reading).values():
        if fold(mix.name) in (wanted, f"{wanted} mix") or f"{fold(mix.name)} mix" == wanted:
            return None, mix.id, mix.name
    found = find_template(name, read_templates(reading))
    return found.id, None, found.template.name


def _days(
    reading: Reading, asked: Asked, draft: OrderDraft, customer: Customer
) -> tuple[date, date | None, int | None]:
    minute = reading.hours.start if customer.minute is None else customer.minute
    if not asked.weekdays:
        if draft.since or draft.until:
            raise Refused('Only a standing order has a first and last day; write "every tue,fri".')
        day, own = day_ordered(asked, minute, customer.weekdays, reading.now, reading.zone)
        return day, day, own
    own = wall_time(asked.clock) if asked.clock else None
    since = (
        parse_day_ahead(draft.since, reading.now, reading.zone) if draft.since else reading.today
    )
    until = parse_day_ahead(draft.until, reading.now, reading.zone, since) if draft.until else None
    refuse_past(since, reading)
    if until and until < since:
        raise Refused("A standing order ends on or after its first day.", "until")
    return since, until, own


def refuse_past(day: date, reading: Reading) -> None:
    """Raise Refused for a day that is over."""
    if day < reading.today:
        raise Refused(
            f"{day_words(day, reading.today)} is past. What was delivered stays as it is; give a "
            "later day.",
            "since",
        )


def _put(act: Act, row: Order, customer: Customer, notices: list[str]) -> Ordered:
    """Write a row of an order, a new order where its id is 0."""
    reading = act.reading
    crops, mixes = crop_names(reading), {mix.id: mix.name for mix in read_mixes(reading)}
    crop = crops[row.template or 0] if row.mix is None else mixes[row.mix]
    words = order_words(row, customer, crop, reading)
    entry = act.entry("order", (), note=words)
    said: dict[str, Any] = {
        "customer_id": row.customer, "template_id": row.template, "mix_id": row.mix,
        **{
            name: getattr(row, name)
            for name in ("packs", "pack_grams", "weekdays", "minute", "since", "until", "price", "gone")
        },
    }  # fmt: skip
    act.put("order_line", entry, order_id=row.id or entry, **said)
    reading = act.reading
    orders, first = read_orders(reading, reading.today), max(row.since, reading.today)
    wish = next_wish(orders, row.id or entry, first, first + timedelta(days=MOST_AHEAD), reading)
    done = done_of(act, words, (), notices)
    ready = None if wish is None else wish.ready_at
    if ready is not None and row.weekdays and not row.gone:
        notices.append(f"First delivery: {reading.when(ready)}.")
    if wish is not None and not row.gone:
        notices += _too_soon(reading, wish)
    if wish is not None and row.weekdays == "" and row.minute is None:
        words = f"{words} {reading.when(wish.ready_at)[-5:]}"
    return Ordered(
        words, done.act_id, (), tuple(notices), customer=customer.name, crop=crop,
        grams=row.grams, ready_at=ready,
    )  # fmt: skip


def _too_soon(reading: Reading, wish: Wish) -> Iterator[str]:
    """Say which crops of a wish are lacking and can't be grown by then."""
    stored = {each.id: each.template for each in read_templates(reading)}
    crops = [stored[part.template] for part in wish.parts]
    back = [backward(each, wish.ready_at, reading.hours, reading.now) for each in crops]
    late = [part.template for part, found in zip(wish.parts, back, strict=True) if found is None]
    for delivery, cover in covered(reading, wish.day, only=late) if late else ():
        for each in cover if delivery.ready_at == wish.ready_at else ():
            if each.short:
                soonest = reading.when(
                    earliest(stored[each.crop], reading.now, reading.hours).cut_at
                )
                yield (
                    f"{stored[each.crop].name} is {grams_words(each.short, reading.units)} short for "
                    f"{reading.when(wish.ready_at)}: sown now, it can be cut from {soonest}."
                )


def amount_words(packs: int, pack_grams: float | None, units: Units) -> str:
    """Say packs or live trays: "6 × 50 g", "500 g", "2 live trays"."""
    if pack_grams is None:
        return plural(packs, "live tray")
    weight = grams_words(pack_grams, units)
    return weight if packs == 1 else f"{packs:,} × {weight}"


def order_words(row: Order, customer: Customer, crop: str, reading: Reading) -> str:
    """Say what is ordered: "Bistro: radish 6 × 50 g, every Tue, Fri from Tue 1 Dec"."""
    clock = "" if row.minute is None else f" {row.minute // 60:02}:{row.minute % 60:02}"
    if row.weekdays:
        days = weekdays_words(row.weekdays)
        when = f"{days if days.startswith('every') else f'every {days}'}{clock}"
        when += f" from {day_words(row.since, reading.today)}" if row.since > reading.today else ""
        when += f" until {day_words(row.until, reading.today)}" if row.until else ""
    else:
        when = f"{day_words(row.since, reading.today)}{clock}"
    if row.gone:
        when = f"stopped from {day_words(row.since, reading.today)}"
    return (
        f"{customer.name}: {crop} {amount_words(row.packs, row.pack_grams, reading.units)}, {when}"
    )


def order_typed(row: Order, crop: str) -> str:
    """An order as it is typed, in grams: "radish 6 x 50g every tue,fri 06:00"."""
    amount = (
        f"{row.packs} trays" if row.pack_grams is None else f"{row.packs} x {row.pack_grams:g}g"
    )
    clock = "" if row.minute is None else f" {wall_words(row.minute)}"
    return f"{crop} {amount} {f'every {row.weekdays}' if row.weekdays else row.since}{clock}"


def find_order(reading: Reading, name: int | str) -> tuple[Order, Customer]:
    """The order of a number, or of "the chef: kale", as it was last said; raises Refused."""
    orders = read_orders(reading, reading.today)
    last = [rows[-1] for rows in orders.orders.values() if not rows[-1].gone]
    wanted = fold(str(name))
    crops, mixes = crop_names(reading), {mix.id: mix.name for mix in read_mixes(reading)}

    def named(row: Order) -> str:
        what = crops[row.template or 0] if row.mix is None else mixes[row.mix]
        return fold(f"{orders.customers[row.customer].name}: {what}")

    found = [each for each in last if wanted in (str(each.id), named(each))]
    if len(found) > 1:
        which = listed([str(each.id) for each in found], joint="or")
        raise Refused(f'"{str(name)[:40]}" means several orders: write {which}.')
    if not found:
        raise Refused(f"There is no coming order {str(name)[:40]}; {Way.ORDERS} lists them.")
    return found[0], orders.customers[found[0].customer]


def change_order(
    book: Book, name: int | str, text: str = "", since: str = "", until: str = "", price: str = ""
) -> Ordered:
    """Change an order from a day on (today by default); what was before that day stays."""
    with book.writing() as act:
        reading = act.reading
        last, customer = find_order(reading, name)
        row = last
        if text:
            asked = read_order(text, reading.now, reading.zone, reading.units)
            template, mix, _ = _what(reading, asked.crop)
            row = replace(
                row, template=template, mix=mix, packs=asked.packs, pack_grams=asked.pack_grams
            )
            if asked.weekdays or asked.day:
                if bool(asked.weekdays) != bool(last.weekdays):
                    raise Refused(
                        "A single order can't become a standing order: stop it and write a new one."
                    )
                days = _days(reading, asked, OrderDraft(customer.name, text), customer)
                row = replace(row, weekdays=asked.weekdays, minute=days[2])
                row = row if asked.weekdays else replace(row, since=days[0], until=days[1])
            elif asked.clock:
                row = replace(row, minute=wall_time(asked.clock))
        if price.strip():
            row = replace(row, price=f"{PACK_PRICE.read(price):f}")
        if row.weekdays:
            row = _from(row, since, until, reading)
        elif since or until:
            raise Refused("Only a standing order has a first and last day.")
        if replace(row, since=last.since) == last:
            raise Refused("Say what changes: the amount, the days, the price, or until when.")
        return _put(act, row, customer, [])


def _from(row: Order, since: str, until: str, reading: Reading) -> Order:
    first = (
        parse_day_ahead(since, reading.now, reading.zone)
        if since
        else max(reading.today, row.since)
    )
    refuse_past(first, reading)
    last = parse_day_ahead(until, reading.now, reading.zone, first) if until else row.until
    if last is not None and last < first:
        raise Refused("A standing order ends on or after the day of its change.", "until")
    return replace(row, since=first, until=last)


def stop_order(book: Book, name: int | str, since: str = "") -> Ordered:
    """End an order: a single one is called off, a standing line ends from a day on (today by default)."""
    with book.writing() as act:
        row, customer = find_order(act.reading, name)
        if row.weekdays:
            row = _from(row, since, "", act.reading)
        elif since:
            raise Refused("Only a standing order has a first and last day.")
        return _put(act, replace(row, gone=True), customer, [])
