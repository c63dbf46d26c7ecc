"""Places: looking at them, adding, changing and retiring them; the room itself."""

from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass, replace
from datetime import date, datetime
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.growing.currencies import currency_code
from logbook.growing.days import zone_named
from logbook.growing.labels.gs1 import prefix_read
from logbook.growing.labels.maker import address_read
from logbook.growing.measures import hours_words, number_words
from logbook.growing.numbers import numbers_words, pool_words
from logbook.growing.quantities import LOSS, SLOTS, STACK, SURE, WORK_HOURS
from logbook.growing.room.places import Place, PlaceKind, Places, place_name, slots_used
from logbook.growing.wall_hours import wall_words
from logbook.growing.wall_reading import checked_lamp_hours
from logbook.store.reads.book import About
from logbook.text import Refused, clean_name, fold


@dataclass(frozen=True, slots=True)
class PlaceView:
    """A place with how many of its slots are taken."""

    keys: ClassVar = """
        place=place.path kind=place.kind slots=place.slots used free lamp_on=place.lamp_on
        lamp_off=place.lamp_off retired=place.retired
    """

    place: Place
    used: int
    """Slots that are taken."""
    free: int


@dataclass(frozen=True, slots=True)
class PlaceDraft:
    """A place as a form gives it. `under` is the path of the room or rack that holds it.

    Lamp hours are minutes after midnight, both or none; `position` orders it among its siblings
    in walking order (None: last, or where it is).
    """

    name: str
    kind: PlaceKind = "shelf"
    under: str = ""
    slots: int = 4
    lamp_on: int | None = None
    lamp_off: int | None = None
    position: int | None = None
    zone: str | None = None
    """A room's own time zone by name, with its day; None for that of the first room."""
    day: tuple[int, int] | None = None


def list_places(book: Book, *, retired: bool = False) -> list[PlaceView]:
    """All places in walking order; retired ones only when asked."""
    with book.reading() as reading:
        views = []
        for place in reading.places:
            if retired or not place.retired:
                shelves = reading.places.under(place)
                used = sum(slots_used(reading.taken.get(shelf.id, ())) for shelf in shelves)
                free = sum(len(reading.free(shelf)) for shelf in shelves)
                views.append(PlaceView(place, used, free))
        return views


def free_words(views: Iterable[PlaceView], *, full: bool = True) -> dict[str, str]:
    """Racks and shelves by their paths with what is free on them, those that are `full` too."""
    return {
        view.place.path: f"{view.free} of {view.free + view.used} free"
        for view in views
        if view.place.kind != "room" and (full or view.free)
    }


def _checked(draft: PlaceDraft) -> PlaceDraft:
    if draft.kind == "shelf":
        SLOTS.checked(draft.slots, "slots")
    on, off = checked_lamp_hours(draft.lamp_on, draft.lamp_off)
    return replace(draft, name=place_name(draft.name), lamp_on=on, lamp_off=off)


def _same_name(name: str, parent: int | None, places: Places, but: int | None) -> None:
    above = places.get(parent)
    path = name if above is None or above == places.first_room else f"{above.path}/{name}"
    for place in places:
        if not place.retired and place.id != but and fold(place.path) == fold(path):
            raise Refused(
                f'There is already a "{place.name}" there; choose another name.', about="name"
            )


def add_place(book: Book, draft: PlaceDraft) -> Place:
    """Add a room, rack or shelf; Refused for a name twice under one roof, or impossible values."""
    draft = _checked(draft)
    with book.writing() as act:
        places = act.reading.places
        above = _above(draft, places)
        parent = above.id if above else None
        _same_name(draft.name, parent, places, None)
        last = max((place.walk[-2] for place in places if place.parent == parent), default=0)
        own: dict[str, object] = {}
        if draft.zone is not None or draft.day is not None:
            if draft.kind != "room":
                raise Refused(
                    "A room has a time zone and working hours; racks and shelves don't.", "zone"
                )
            usual = act.reading.hours
            start, end = draft.day or (usual.start, usual.end)
            own = {
                "zone": zone_named(draft.zone or usual.zone.key).key,
                "day_start": start,
                "day_end": end,
            }
        made = act.add(
            "place", **own, parent_id=parent, kind=draft.kind, name=draft.name, lamp_on=draft.lamp_on,
            lamp_off=draft.lamp_off, slots=draft.slots if draft.kind == "shelf" else 0,
            position=last + 1 if draft.position is None else draft.position,
        )  # fmt: skip
        place = act.reading.places.by_id[made]
        act.settings(f"{place.path} added", place.id)
        return place


def _above(draft: PlaceDraft, places: Places) -> Place | None:
    if draft.kind == "room":
        return None
    above = places.find(draft.under) if draft.under else places.room
    if above is not None and above.kind == "shelf":
        raise Refused(
            f"{above.path} is a shelf; put a {draft.kind} under a rack or a room.", about="under"
        )
    return above


def change_place(
    book: Book, path: str, draft: PlaceDraft, hours_since: datetime | None = None
) -> Place:
    """Change a place's name, slots, lamp hours or walking order; its kind and trays stay.

    New lamp hours are written as an entry: they hold from `hours_since` on, or from now. Raises
    Refused for fewer slots than trays stand on it, and as add_place() does.
    """
    draft = _checked(draft)
    with book.writing() as act:
        reading = act.reading
        place = reading.places.find(path)
        _same_name(draft.name, place.parent, reading.places, place.id)
        held = reading.taken.get(place.id, [])
        highest = max([each.slot or 0 for each in held], default=0)
        if place.kind == "shelf" and draft.slots < max(slots_used(held), highest):
            raise Refused(
                f"{place.path} holds {len(held)} trays, one in slot {highest}; "
                "move them before it has fewer slots.",
                about="slots",
            )
        row: dict[str, Any] = {"name": draft.name}
        if place.kind == "shelf":
            was, hours = (place.lamp_on, place.lamp_off), (draft.lamp_on, draft.lamp_off)
            row |= {"slots": draft.slots, "lamp_on": draft.lamp_on, "lamp_off": draft.lamp_off}
            if was != hours:
                since = act.moment(hours_since, "New lamp hours")
                entry = act.entry("hours", (), since, place=place.id)
                hold = {"lamp_on": draft.lamp_on, "lamp_off": draft.lamp_off}
                act.put("lamp_hours", entry, [hold], was_on=was[0], was_off=was[1])
        if draft.position is not None:
            row["position"] = draft.position
        act.change("place", place.id, **row)
        after = act.reading.places.by_id[place.id]
        if after != replace(place, lamp_on=after.lamp_on, lamp_off=after.lamp_off):
            name = f", now {after.path}" if after.path != place.path else ""
            act.settings(f"{place.path} changed{name}", place.id)
        return after


def retire_place(book: Book, path: str) -> Place:
    """Retire a place: its record stays, it is no longer walked past or filled."""
    with book.writing() as act:
        reading = act.reading
        place = reading.places.find(path)
        shelves = {shelf.id for shelf in reading.places.under(place)}
        there = [known.number for known in reading.live if known.state.place in shelves]
        if there:
            raise Refused(f"{place.path} still holds {numbers_words(there)}; move them first.")
        act.change("place", place.id, retired=True)
        act.settings(f"{place.path} retired", place.id)
        return place


def take_back_place(book: Book, path: str) -> Place:
    """Take a retired place back; raises Refused when another has its name by now."""
    with book.writing() as act:
        places = act.reading.places
        place = next((each for each in places if each.retired and each.path == path), None)
        if place is None:
            raise Refused(f'There is no retired place "{path[:60]}".')
        above = places.get(place.parent)
        if above is not None and above.retired:
            raise Refused(f"{above.path} is retired; bring it back into use first.")
        _same_name(place.name, place.parent, places, place.id)
        act.change("place", place.id, retired=False)
        act.settings(f"{place.path} back in use", place.id)
        return place


def walk_earlier(book: Book, path: str, *, later: bool = False) -> Place:
    """Move a place one step earlier (or later) in the walking order among its siblings."""
    with book.writing() as act:
        places = act.reading.places
        place = places.find(path)
        beside = (each for each in places if each.parent == place.parent and not each.retired)
        order = [each.id for each in beside]
        here = order.index(place.id)
        there = here + (1 if later else -1)
        if not 0 <= there < len(order):
            raise Refused(f"{place.path} is already the {'last' if later else 'first'} there.")
        order[here], order[there] = order[there], order[here]
        for position, each in enumerate(order, 1):
            act.change("place", each, position=position)
        act.settings(f"{place.path} moved {'down' if later else 'up'} in walking order", place.id)
        return place


def shelf_for_light(book: Book, path: str, count: int) -> str | None:
    """A lit shelf (path) with room for all trays of a dark place; None for none, or a lit place."""
    with book.reading() as reading:
        if any(place.lit for place in reading.places if place.path == path):
            return None
        lit = (shelf for shelf in reading.places.shelves if shelf.lit)
        return next((shelf.path for shelf in lit if len(reading.free(shelf)) >= count), None)


@dataclass(frozen=True, slots=True)
class RoomDraft:
    """What can be changed of a room; None leaves it, of a text "" is none. The day's hours are minutes after midnight."""

    name: str | None = None
    units: str | None = None
    first_day: int | None = None
    day_start: int | None = None
    day_end: int | None = None
    evening: int | None = None
    pool: range | None = None
    stack_height: int | None = None
    currency: str | None = None
    sure_percent: float | None = None
    loss_percent: float | None = None
    work_hours: float | None = None
    maker: str | None = None
    address: str | None = None
    gs1_prefix: str | None = None
    phone: str | None = None
    certificate: str | None = None
    certified_until: date | None = None


@dataclass(frozen=True, slots=True)
class RoomView:
    """The room as it is now."""

    keys: ClassVar = """
        name=about.name zone=about.zone units=about.units first_day=about.first_day
        day_start=about.day_start day_end=about.day_end
        evening=about.hours.last_round numbers_from=about.pool_first numbers_to=about.pool_last
        stack_height=about.stack currency=about.currency
        sure_percent=about.sure_percent loss_percent=about.loss_percent work_hours=about.work_hours
        maker=about.maker address=about.address gs1_prefix=about.gs1_prefix
        phone=about.phone certificate=about.certificate certified_until=about.certified_until book
    """

    about: About
    book: str
    """The book's file, or its address on a server."""


_TEXTS: dict[str, Callable[[str], str]] = {
    "currency": currency_code, "maker": lambda text: clean_name(text, "maker's name"),
    "address": address_read, "gs1_prefix": prefix_read,
    "phone": lambda text: clean_name(text, "phone number"),
    "certificate": lambda text: clean_name(text, "certificate"),
}  # fmt: skip
"""Settings that may be taken away again, and how each is read."""


def change_room(book: Book, draft: RoomDraft) -> About:
    """Change the room; its row among the places goes by the new name too."""
    with book.writing() as act:
        before, places = act.reading.about, act.reading.places
        said = {name: value for name, value in asdict(draft).items() if value is not None}
        pool = said.pop("pool", before.pool)
        said |= {"pool_first": min(pool, default=None), "pool_last": max(pool, default=None)}
        for name, read in _TEXTS.items():
            if text := said.get(name):
                said[name] = read(text)
            elif text is not None:
                said[name] = None
        about = replace(before, **said)
        if about.units not in ("metric", "us"):
            raise Refused(f'Units "{about.units[:20]}" are unknown; use metric or us.', "units")
        STACK.checked(about.stack if draft.stack_height is None else draft.stack_height, "stack")
        if about.stack == before.stack:
            about = replace(about, stack_height=before.stack_height)
        if about.first_day not in (0, 1):
            raise Refused("The sowing day is day 0 or day 1.", "first_day")
        if not 0 <= about.day_start < about.day_end <= 1440:
            raise Refused(
                "Working hours go from an earlier to a later time, like 07:00-19:00.", "day"
            )
        if about.evening is not None and not about.day_start < about.evening < about.day_end:
            raise Refused(
                f"The evening's chores must be due between {wall_words(about.day_start)} and "
                f"{wall_words(about.day_end)}, after the morning's.",
                "evening",
            )
        usual = replace(about, evening=None)
        if about.hours.last_round == usual.hours.last_round:
            about = usual
        if about.name != before.name:
            about = replace(about, name=clean_name(about.name, "name of the room"))
            was, name = place_name(before.name), place_name(about.name)
            for place in places:
                if place.kind == "room" and place.name == was:
                    act.change("place", place.id, name=name)
                elif not place.retired and fold(place.name) == fold(name):
                    raise Refused(
                        f'"{place.path}" is already used. Choose a different name for the room.',
                        "name",
                    )
        for quantity, line in ((SURE, "sure"), (LOSS, "loss"), (WORK_HOURS, "work")):
            if (value := getattr(about, quantity.key)) is not None:
                quantity.checked(value, about=line)
        own = (
            "name", "units", "first_day", "pool_first", "pool_last", "stack_height",
            "sure_percent", "loss_percent", "work_hours", "certified_until", *_TEXTS,
        )  # fmt: skip
        act.change("book", 1, **{each: getattr(about, each) for each in own})
        day = {each: getattr(about, each) for each in ("day_start", "day_end", "evening")}
        act.change("place", about.room, **day)
        if about != before:
            told = _facts(before)
            act.settings(", ".join(each for each in _facts(about) if each not in told), about.room)
    book.about = about
    return about


def room_words(about: About) -> str:
    """Say what the room is, in one line."""
    return f"{about.name}: times in {about.zone}, {', '.join(_facts(about)[1:])}."


def maker_words(about: About) -> str:
    """Say who labels name: "labels by Hill Farm, 4 Mill Lane; 9 Marsh End"."""
    named = ", ".join(filter(None, [about.maker, about.phone, about.address]))
    prefix = f" (GS1 prefix {about.gs1_prefix})" if about.gs1_prefix else ""
    return f"labels by {named}{prefix}" if named else f"labels name no maker{prefix}"


def _facts(about: About) -> list[str]:
    """What can be changed of a room, each in words."""
    return [
        f"called {about.name}",
        f"{about.units} units",
        f"the sowing day is day {about.first_day}",
        f"daily chores from {wall_words(about.day_start)} to {wall_words(about.day_end)}",
        f"the evening's at {wall_words(about.hours.last_round)}",
        f"tray numbers {pool_words(about.pool)} in turn" if about.pool else "tray numbers count on",
        f"money in {about.currency}" if about.currency else "no currency",
        f"trays under weight {about.stack} high" if about.stack > 1 else "no stacks under weight",
        f"deliveries enough {number_words(100 * about.sure)} times in 100",
        f"{number_words(about.loss_percent or 0.0)} % lost in trimming",
        *([f"{hours_words(about.work_hours)} of work per day"] if about.work_hours else ()),
        maker_words(about),
        *([f"organic certificate {about.certificate}"] if about.certificate else ()),
    ]
