"""The questions about lamps, tariffs and circuits, and how their texts are read."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from logbook.actions.lamps import CircuitDraft, CircuitView
from logbook.growing.lamps import LampSet
from logbook.growing.measures import Units, length_words, number_words
from logbook.growing.quantities import AMPS, BREAKER, LAMP_HEIGHT, LAMPS, LOAD, PRICE, VOLTS, WATTS
from logbook.growing.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import wall_hours
from logbook.growing.when import parse_day
from logbook.text import Refused, clean_words
from logbook.ui.fields_form import AskFields

POWER = {"lamps": "bills", "tariff": "bills", "circuit": "bills"}
"""The kinds of drafts of these questions, and the screen that goes on with them."""

LAMP_FIELDS = (
    ("lamps", "how many", "0: taken off"),
    ("watts", "watts of one", "like 18"),
    ("amps", "amps of one", "from its label"),
    ("volts", "volts", "120 or 230"),
    ("kind", "kind", "own words"),
    ("light", "light", "like 4000 K"),
    ("height", "above the shelf", "like 21 cm"),
    ("bought", "bought", "2026-01-31"),
)
TARIFF_FIELDS = (
    ("price", "price a kWh", "like 0.30"),
    ("since", "from", "empty: today"),
    ("hours", "other hours", "like 17-20"),
    ("other", "price then", "like 0.42"),
)
CIRCUIT_FIELDS = (
    ("name", "name", "own words"),
    ("breaker", "breaker, A", "like 15"),
    ("volts", "volts", "120 or 230"),
    ("places", "racks, shelves", "with ; between"),
    ("other", "other amps", "fans, pumps"),
)


def lamps_form(place: str, units: Units, now: LampSet | None, today: date) -> AskFields[LampSet]:
    """Give the question about the lamps over a shelf."""

    def read(texts: Mapping[str, str]) -> LampSet:
        if texts["lamps"] == "0":
            return LampSet(0)
        if not texts["watts"]:
            raise Refused("Give the watts of one lamp, like 18; or 0 lamps when they are gone.")
        return LampSet(
            lamps=LAMPS.read(texts["lamps"] or "1"),
            watts=WATTS.read(texts["watts"]),
            kind=clean_words(texts["kind"], "kind of lamp"),
            light=clean_words(texts["light"], "light of the lamp"),
            amps=AMPS.optional(texts["amps"]),
            volts=VOLTS.optional(texts["volts"]),
            height_mm=LAMP_HEIGHT.optional(texts["height"], units),
            bought=_day(texts["bought"], today) if texts["bought"] else None,
        )

    return AskFields(f"Lamps over {place}", LAMP_FIELDS, read, _lamp_texts(now, units))


def _day(text: str, today: date) -> date:
    from datetime import UTC, datetime, time

    from logbook.growing.days import zone_named

    noon = datetime.combine(today, time(12), UTC)
    return parse_day(text, noon, zone_named("UTC"))


def _lamp_texts(lamps: LampSet | None, units: Units) -> dict[str, str]:
    if lamps is None or not lamps.lamps:
        return {}
    return {
        "lamps": str(lamps.lamps),
        "watts": number_words(lamps.watts, 2),
        "amps": "" if lamps.amps is None else number_words(lamps.amps, 3),
        "volts": "" if lamps.volts is None else number_words(lamps.volts),
        "kind": lamps.kind,
        "light": lamps.light,
        "height": "" if lamps.height_mm is None else length_words(lamps.height_mm, units),
        "bought": "" if lamps.bought is None else lamps.bought.isoformat(),
    }


def tariff_form(today: date) -> AskFields[Tariff]:
    """Give the question about a price per kWh."""

    def read(texts: Mapping[str, str]) -> Tariff:
        if bool(texts["hours"]) != bool(texts["other"]):
            raise Refused("Give the other hours and the price then together, or neither.")
        others: tuple[OtherHours, ...] = ()
        if texts["hours"]:
            price = PRICE.named("price then").read(texts["other"])
            others = (OtherHours(wall_hours(texts["hours"]), price),)
        since = _day(texts["since"], today) if texts["since"] else today
        return Tariff(since, PRICE.read(texts["price"]), others)

    return AskFields("The price of electricity", TARIFF_FIELDS, read)


def circuit_form(now: CircuitView | None) -> AskFields[CircuitDraft]:
    """Give the question about a circuit."""

    def read(texts: Mapping[str, str]) -> CircuitDraft:
        return CircuitDraft(
            texts["name"],
            BREAKER.read(texts["breaker"]),
            VOLTS.read(texts["volts"]),
            tuple(part.strip() for part in texts["places"].split(";") if part.strip()),
            100 * now.load.limit_amps / now.load.breaker_amps if now else 80.0,
            LOAD.optional(texts["other"]) or 0.0,
        )

    start = {}
    if now is not None:
        start = {
            "name": now.name,
            "breaker": number_words(now.load.breaker_amps, 2),
            "volts": number_words(now.load.volts, 2),
            "places": "; ".join(now.shelves),
            "other": number_words(now.other_amps, 2) if now.other_amps else "",
        }
    return AskFields("A circuit and what hangs on it", CIRCUIT_FIELDS, read, start)
