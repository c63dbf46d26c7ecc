"""What each command prints with --json, as JSON schemas that tests hold to the output."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas import book, daily, readings, room, sums, trials

SCHEMAS: dict[str, dict[str, Any]] = {
    "begin": room.BEGIN,
    "round": daily.ROUND,
    "due": daily.DUE,
    "page": daily.PAGE,
    "search": daily.SEARCH,
    "tray": daily.TRAY,
    "batch": daily.BATCH,
    "lot": daily.LOT,
    "racks": daily.RACKS,
    "sow": daily.SOW,
    "weigh": daily.WEIGH,
    **dict.fromkeys(
        ("did", "skip", "look", "jot", "move", "discard", "undo", "strike"), daily.DONE
    ),
    "me": book.ME,
    "templates": room.TEMPLATES,
    "templates show": room.TEMPLATE,
    **dict.fromkeys(("templates put", "templates copy", "templates retire"), room.TEMPLATE_WRITTEN),
    "places": room.PLACES,
    **dict.fromkeys(("places add", "places change", "places retire"), room.PLACE),
    "room": room.ROOM,
    "lamps": readings.LAMPS,
    "light": readings.LIGHT,
    "air": readings.AIR,
    "water": readings.WATER,
    "cleaning": readings.SOLUTION,
    "tariff": readings.TARIFF,
    "circuit": readings.CIRCUIT,
    "bills": readings.BILLS,
    "trial list": trials.LIST,
    "trial show": trials.SHOW,
    "trial new": trials.NEW,
    "trial sow": trials.SOW,
    "trial judge": trials.JUDGE,
    "trial taste": trials.TASTE,
    "trial criteria": trials.WEIGH_UP,
    "copy": book.COPY,
    "restore": book.RESTORE,
    "check": book.CHECK,
    "export": book.GIVE_OUT,
    "import": book.TAKE_IN,
    "reckon light": sums.LIGHT,
    "reckon power": sums.POWER,
    "reckon circuit": sums.CIRCUIT,
    "reckon air": sums.AIR,
    "reckon dilute": sums.DILUTE,
    "reckon seed": sums.SEED,
    "reckon compare": sums.COMPARE,
    "reckon replicates": sums.REPEATS,
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
