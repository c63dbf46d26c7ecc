"""Schemas of templates and places."""

from __future__ import annotations

from logbook.cli.schemas.shapes import (
    Schema,
    many,
    number,
    one_of,
    or_null,
    text,
    thing,
    truth,
    whole,
)
from logbook.growing.templates import COVERS, LIGHTS, WATERS

_SPAN = {"pattern": r"^\d+(s|min|h|d)( \d+h)?$"}
_EMPTY = (
    "variety", "seed_grams", "soak_ph", "medium", "sign_to_cut", "expected_grams", "notes",
    "targets",
)  # fmt: skip
"""Keys that are left out of a template where they are empty."""


def span(words: str = "") -> Schema:
    """Give a length of time: 4d, 60h, 90min."""
    return text(words) | _SPAN


_TEMPLATE: dict[str, Schema] = {
    "name": text(),
    "crop": text(),
    "variety": text(),
    "seed_grams": number("Dry seed a tray, g.", least=0),
    "tray": text("Length x width: 508x254mm."),
    "soak": span("0h for none."),
    "soak_ph": number(),
    "medium": text(),
    "sign_to_cut": text("The sign that says: cut now."),
    "expected_grams": number("The template's own guess, g a tray.", least=0),
    "spread_percent": number("Spread from tray to tray.", least=0),
    "mucilage": truth("Whether the seed turns to slime in water; then it is never soaked."),
    "guess": truth("Whether it is a starting guess."),
    "notes": text(),
    "targets": thing(
        "What the crop wants: 18 to 24 C, at least 40 % …",
        optional=("light", "lit_hours", "temperature", "humidity", "ph", "ec", "water"),
        light=text("Daily light, mol/m²."),
        lit_hours=text(),
        temperature=text(),
        humidity=text(),
        ph=text(),
        ec=text("mS/cm."),
        water=text("ml a tray."),
    ),
    "stages": many(
        thing(
            "",
            optional=("length", "water_per_day"),
            name=text(),
            length=span("Left out of the last one: until the cut."),
            cover=one_of(*COVERS),
            light=one_of(*LIGHTS),
            water=one_of(*WATERS),
            water_per_day=number(least=0),
            looks_per_day=number(least=0),
        )
    ),
    "cut": thing("From the beginning of the last stage.", from_=span(), best=span(), by=span()),
    "version": whole(least=1),
}
TEMPLATES = thing(
    "The crop templates, by name.", templates=many(thing("", optional=_EMPTY, **_TEMPLATE))
)
TEMPLATE = thing(
    "One crop template, and what this room's trays say of it.",
    optional=_EMPTY,
    **_TEMPLATE,
    retired=truth(),
    room_expects_grams=or_null(number("What this room expects of a tray, g.", least=0)),
    room_spread_grams=or_null(number("One standard deviation, g.", least=0)),
    rests_on_trays=or_null(whole("On how many trays that rests.")),
)
TEMPLATE_WRITTEN = thing(
    "The template as it stands now.", optional=_EMPTY, **_TEMPLATE, retired=truth()
)
_WALL = {"pattern": r"^\d\d:\d\d$"}
PLACE = thing(
    "A place as it stands now.",
    place=text("The path: Rack 1/Shelf 2."),
    kind=one_of("room", "rack", "shelf"),
    slots=or_null(whole("Trays that it holds.")),
    used=whole(),
    free=or_null(whole()),
    lamp_on=or_null(text("By the wall clock; null for a dark one.") | _WALL),
    lamp_off=or_null(text() | _WALL),
    retired=truth(),
)
PLACES = thing("Rooms, racks and shelves in walking order.", places=many(PLACE))
ROOM = thing(
    "The room as it is now.",
    name=text("What it is called."),
    zone=text("Time zone, like Europe/London."),
    units=one_of("metric", "us"),
    first_day=one_of(0, 1),
    day_start=text("When daily chores begin, by the wall clock.") | _WALL,
    day_end=text("When they end.") | _WALL,
    book=text("The book's file."),
)
BEGIN = thing(
    "The book that was made.",
    book=text("Its file."),
    name=text("What the room is called."),
    zone=text("Time zone, like Europe/London."),
    racks=whole(least=1),
    shelves=whole("Shelves a rack.", least=1),
    slots=whole("Trays a shelf.", least=1),
    units=one_of("metric", "us"),
    lamp_on=or_null(text("By the wall clock; null for dark shelves.") | _WALL),
    lamp_off=or_null(text() | _WALL),
    first_day=one_of(0, 1),
)
