"""What each command prints with --json, as JSON schemas that tests hold to the output."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas import book, daily, room, sums

SCHEMAS: dict[str, dict[str, Any]] = {
    "round": daily.ROUND,
    "due": daily.DUE,
    "page": daily.PAGE,
    "search": daily.SEARCH,
    "tray": daily.TRAY,
    "batch": daily.BATCH,
    "racks": daily.RACKS,
    "sow": daily.SOW,
    "weigh": daily.WEIGH,
    "templates": room.TEMPLATES,
    "templates show": room.TEMPLATE,
    "places": room.PLACES,
    "copy": book.COPY,
    "restore": book.RESTORE,
    "check": book.CHECK,
    "give-out": book.GIVE_OUT,
    "take-in": book.TAKE_IN,
    "reckon light": sums.LIGHT,
    "reckon power": sums.POWER,
    "reckon circuit": sums.CIRCUIT,
    "reckon air": sums.AIR,
    "reckon dilute": sums.DILUTE,
    "reckon seed": sums.SEED,
    "reckon compare": sums.COMPARE,
    "reckon repeats": sums.REPEATS,
    "reckon triangle": sums.TRIANGLE,
    "reckon ranks": sums.RANKS,
}
"""By the words of the command. Keys may be added to what is printed; none is ever taken away."""


def schema_of(name: str) -> dict[str, Any]:
    """Give a command's schema with its head."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"logbook {name} --json",
        **SCHEMAS[name],
    }
