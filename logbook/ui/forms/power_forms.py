"""The questions about lamps, tariffs and circuits."""

from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime, time
from typing import Any

from logbook.actions.room.lamps import CircuitDraft, CircuitView
from logbook.growing.days import zone_named
from logbook.growing.measures import Units
from logbook.growing.quantities import AMPS, BREAKER, LAMP_HEIGHT, LAMPS, LOAD, PRICE, VOLTS, WATTS
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_reading import wall_hours
from logbook.growing.when import parse_day
from logbook.text import Refused, clean_words
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field, measured

POWER = {"lamps": "bills", "tariff": "bills", "circuit": "bills"}
"""The kinds of drafts of these questions, and the screen that goes on with them."""


def _day(today: date) -> Callable[[str], date]:
    noon = datetime.combine(today, time(12), UTC)
    return lambda text: parse_day(text, noon, zone_named("UTC"))


def lamps_form(place: str, units: Units, now: LampSet | None, today: date) -> AskForm[LampSet]:
    """Ask what hangs over a shelf; 0 lamps are none."""
    old = now if now is not None and now.lamps else LampSet(0)
    fields = (
        Field("lamps", "how many", "0: taken off", str(old.lamps or ""),
              lambda text: 0 if text.strip() == "0" else LAMPS.read(text), optional=True, empty=1),
        measured("watts", "watts of one", WATTS, "like 18", old.watts or None),
        measured("amps", "amps of one", AMPS, "from its label", old.amps),
        measured("volts", "volts", VOLTS, "120 or 230", old.volts),
        Field("kind", "kind", "your own words", old.kind, lambda text: clean_words(text, "kind of lamp")),
        Field("light", "light", "like 4000 K", old.light,
              lambda text: clean_words(text, "light of the lamp")),
        measured("height", "above the shelf", LAMP_HEIGHT, "like 21 cm", old.height_mm, units),
        Field("bought", "bought", "2026-01-31", old.bought.isoformat() if old.bought else "",
              _day(today), optional=True),
    )  # fmt: skip

    def make(values: Mapping[str, Any]) -> LampSet:
        if not values["lamps"]:
            return LampSet(0)
        if values["watts"] is None:
            raise Refused(
                "Give the watts of one lamp, like 18; or 0 lamps if they are gone.", "watts"
            )
        named = {key: value for key, value in values.items() if key != "height"}
        return LampSet(height_mm=values["height"], **named)

    return AskForm(f"Lamps over {place}", fields, make)


def tariff_form(today: date) -> AskForm[Tariff]:
    """Ask for a price per kWh, and for hours at another."""
    fields = (
        measured("price", "price per kWh", PRICE, "like 0.30", needed=True),
        Field("since", "from", "empty: today", read=_day(today), optional=True, empty=today),
        Field("hours", "other hours", "like 17-20", read=wall_hours, optional=True),
        measured("other", "price then", PRICE.named("price then"), "like 0.42"),
    )  # fmt: skip

    def make(values: Mapping[str, Any]) -> Tariff:
        hours, price = values["hours"], values["other"]
        if (hours is None) != (price is None):
            raise Refused("Fill in both the other hours and the price then, or neither.")
        others = () if hours is None else (OtherHours(hours, price),)
        return Tariff(values["since"], values["price"], others)

    return AskForm("The price of electricity", fields, make)


def circuit_form(now: CircuitView | None) -> AskForm[CircuitDraft]:
    """Ask for a circuit and what hangs on it."""
    load = now.load if now else None
    fields = (
        Field("name", "name", "your own words", now.name if now else ""),
        measured("breaker", "breaker, A", BREAKER, "like 15", load.breaker_amps if load else None,
                 needed=True),
        measured("volts", "volts", VOLTS, "120 or 230", load.volts if load else None, needed=True),
        Field("places", "racks, shelves", "separated by ;", "; ".join(now.shelves) if now else ""),
        measured("other", "other amps", LOAD, "fans, pumps", now.other_amps or None if now else None),
    )  # fmt: skip

    def make(values: Mapping[str, Any]) -> CircuitDraft:
        places = tuple(part.strip() for part in values["places"].split(";") if part.strip())
        percent = 100 * load.limit_amps / load.breaker_amps if load else 80.0
        return CircuitDraft(
            values["name"], values["breaker"], values["volts"], places,
            share_percent=percent, other_amps=values["other"] or 0.0,
        )  # fmt: skip

    return AskForm("A circuit and what runs on it", fields, make)
