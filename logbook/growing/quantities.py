"""The quantities of the book, a line each: how it is read and written, its range, its JSON key.

A value is kept in the unit that its key names: grams, mm, ml, °C, percent, mS/cm.
"""

import math
import re
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Self

from logbook.growing import measures
from logbook.growing.measures import Scale, Units, amount, number_words
from logbook.text import Refused, clean


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity: `name` in sentences, `key` in JSON, `digits` after the point as measured.

    The range goes from `low` (left out where it is `over`) to `high`. A bare number outside
    `usual` is asked about, for its unit may be the other one, and so is a bare percentage up to 1,
    for it may be a share of 1. `hint` ends the refusal. Readings are near each other within
    `apart`, or up to so many `times`; one that has none to be held against is asked about outside
    `common` (common practice, no source).
    """

    name: str
    key: str
    scale: Scale
    low: float = 0.0
    high: float = math.inf
    digits: int = 2
    over: bool = False
    usual: tuple[float, float] | None = None
    hint: str = ""
    apart: float = 0.0
    times: float = 1.0
    common: tuple[float, float] = (-math.inf, math.inf)

    def read(self, text: str, units: Units = "metric") -> float:
        """Read a text; raise Refused for one that is no such quantity or is out of range."""
        value = self.scale(text, self.name, units)
        if self.scale is measures.percent and not amount(text, self.name).unit:
            self.not_a_share(value)
        if not self.usual or any(map(str.isalpha, (given := amount(text, self.name)).unit)):
            return self.checked(value, units)
        (low, high), bare = self.usual, number_words(given.value)
        said = f"{bare}{self.scale.bare('metric' if units == 'us' else 'us')[-1]}"
        if not self.holds(value) and low <= self.scale(said, self.name) <= high:
            raise Refused(f"{self._fault(value, units)} Did you mean {said}?")
        if not low <= self.checked(value, units) <= high:
            raise Refused(
                f"{self.scale.write(value, units)} would be odd for a tray; write the "
                f"unit too, {bare}{self.scale.metric[-1]} or {bare}{self.scale.us[-1]}."
            )
        return value

    def not_a_share(self, value: float) -> float:
        """The percentage itself; raise Refused where it was given bare and may be a share of 1."""
        if 0 < value <= 1:
            said, whole = number_words(value, 4), number_words(100 * value, 4)
            raise Refused(
                f"The {self.name} {said} would be {said} %. Did you mean {whole} %? "
                f"Write the % too: {whole}% or {said}%."
            )
        return value

    def given(self, text: str | None, units: Units = "metric") -> float | None:
        """Read an option; None for one that is not given."""
        return None if text is None else self.read(text, units)

    def holds(self, value: float) -> bool:
        """Whether a value is in the range."""
        return self.low <= value <= self.high and not (self.over and value == self.low)

    def near(self, one: float, other: float) -> bool:
        """Whether two readings are so near each other that neither need be asked about."""
        low, high = sorted((one, other))
        return high - low <= self.apart or high <= low * self.times

    def checked(self, value: float, units: Units = "metric", about: str = "") -> float:
        """The value itself; raise Refused, `about` a line of a form, when it is out of range."""
        if not self.holds(value):
            hint = self.hint if self.scale.bare(units) == self.scale.metric else ""
            raise Refused(f"{self._fault(value, units)} {hint}".strip(), about)
        return value

    def _fault(self, value: float, units: Units) -> str:
        low, high, said = (
            self.scale.write(each, units, grouped=True) for each in (self.low, self.high, value)
        )
        span = f"more than {low}" if self.over else f"{low} or more"
        if math.isfinite(self.high):
            start = low.removesuffix(self.scale.bare(units)).strip()
            span = f"more than {low} and at most {high}" if self.over else f"{start} to {high}"
        return f"The {self.name} must be {span}, not {said}."

    def text(self, value: float | None, units: Units = "metric") -> str:
        """Write a value so that it is read back; '' for none."""
        return "" if value is None else self.scale.write(value, units)

    def named(self, name: str, key: str = "") -> Self:
        """The same quantity of another thing."""
        return replace(self, name=name, key=key or self.key)


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number of things from `least` to `most`."""

    name: str
    key: str
    most: int
    least: int = 1

    def read(self, text: str) -> int:
        """Read a count; raise Refused."""
        value = measures.plain(text, self.name)
        return self.checked(round(value) if value == round(value) else -1)

    def checked(self, value: int, about: str = "") -> int:
        """The value itself; raise Refused, `about` a line of a form, when it is out of range."""
        if not self.least <= value <= self.most:
            span = f"from {self.least} to {self.most:,}"
            raise Refused(f"The {self.name} must be a whole number {span}.", about)
        return value


@dataclass(frozen=True, slots=True)
class Price:
    """What something costs in the book's currency, exactly as it was typed; up to `most` of the weakest."""

    name: str
    key: str
    most: int = 10**8

    def read(self, text: str, units: Units = "metric") -> Decimal:
        """Read a price; raise Refused."""
        given = amount(text.translate(_SIGNS), self.name, "0.30")
        if given.unit.casefold().replace(" ", "") not in ("", "/kwh", "akwh", "perkwh"):
            raise Refused(
                f'The {self.name} "{clean(text)[:40]}" must be a number alone, like 0.30: it is in '
                "the book's currency."
            )
        return self.checked(given.exact)

    def checked(self, value: Decimal) -> Decimal:
        """The price itself; raise Refused when it cannot be one."""
        if value.is_nan() or not 0 <= value <= self.most:
            span = "0 or more" if value.is_nan() or value < 0 else f"0 to {self.most:,}"
            raise Refused(f"The {self.name} must be {span}, not {value}.")
        return value

    def text(self, value: Decimal | None, units: Units = "metric") -> str:
        """Write a price so that it is read back; '' for none."""
        return "" if value is None else f"{value:f}"

    def named(self, name: str) -> Self:
        """The same price of another thing."""
        return replace(self, name=name)


_SIGNS = dict.fromkeys(map(ord, "$€£¥"))

# trays and seed
SEED = Quantity("seed per tray", "seed_grams_per_tray", measures.grams, 0.01, 20_000)
SEED_OF_LOT = SEED.named("seed of a lot", "grams")
BAG = Quantity("weight of the bag", "grams", measures.grams, 0, 1_000_000, over=True)
LEFT = replace(BAG, name="seed left", over=False)
BAG_PRICE = Price("price of the bag", "price")
CUT = Quantity("cut weight per tray", "grams", measures.grams, 0, 100_000, 1)
SHOWN = Quantity("weight on the scale", "shown_grams", measures.grams, 0, 100_000, 2)
KNOWN = replace(SHOWN, name="known weight", key="known_grams", over=True)
EXPECTED = Quantity("expected weight per tray", "expected_grams", measures.grams, 1, 100_000, 1)
SPREAD = Quantity("spread", "spread_percent", measures.percent, 0, 200, 1)
ORDER = Quantity("order", "order_grams", measures.grams, 0, 1_000_000, 1, over=True)
OF_LOT = replace(ORDER, name="weight of the lot", key="lot_grams")
BATCH_SHARE = Quantity("share of the batch", "batch_share_percent", measures.percent, 0, 100, 1)
SURE = Quantity("chance of enough", "sure_percent", measures.percent, 1, 99.9, 1)
PARTS = Quantity("parts", "parts", measures.plain, 0, 1_000, over=True)
WORK_HOURS = Quantity("hours of sowing and cutting per day", "work_hours", measures.hours, 0, 200)
LOSS = Quantity("trimming loss", "loss_percent", measures.percent, 0, 95, 1)
KEEPING = Quantity("keeping days", "keeping_days", measures.plain, 0, 60, 1)
TRAY_SIDE = Quantity("side of the tray", "tray_mm", measures.millimetres, 20, 5_000, 1)
THOUSAND = Quantity("weight of a thousand seeds", "grams_per_thousand", measures.grams, 0, 5_000,
    over=True, hint="Radish is about 10 g, pea about 200 g.")  # fmt: skip
DENSITY = Quantity("density", "plants_per_cm2", measures.per_area, 0, 100, over=True)
PURITY = Quantity("purity", "purity_percent", measures.percent, 0, 100, over=True)
GERMINATION = Quantity("germination", "germination_percent", measures.percent, 0, 100, over=True)

# what a look sees
EMERGED = Quantity("emergence", "emerged_percent", measures.percent, 0, 100, 1)
HEIGHT = Quantity("height", "height_mm", measures.millimetres, 0, 2_000, 1)

# water
WATER = Quantity("amount of water per tray", "water_ml", measures.millilitres, 0, 50_000, 1,
    over=True, times=5, common=(0, 1_500))  # fmt: skip
PH = Quantity("pH", "ph", measures.plain, 0, 14, apart=2, common=(4, 9))
SOAK_PH = PH.named("pH of the soak water", "soak_ph")
EC = Quantity("EC", "ec_ms_cm", measures.conductivity, 0, 20, 3,
    apart=2, common=(0, 4), hint="Write µS after the number if the meter shows µS/cm.")  # fmt: skip
STOCK = Quantity("stock strength", "stock_percent", measures.strength, 0, 100, 6, over=True)
WANTED = STOCK.named("wanted strength", "want_percent")
VOLUME = Quantity("volume", "volume_ml", measures.millilitres, 0, 10_000_000, 1, over=True)
ECOLI = Quantity("count of E. coli", "ecoli_per_100_ml", measures.plain, 0, 1_000_000, 0)

# air
TEMPERATURE = Quantity("temperature", "celsius", measures.celsius, -20, 60, usual=(-20, 60),
    hint="Write F after the number if it is Fahrenheit.")  # fmt: skip
AIR = replace(TEMPERATURE, usual=(5, 45), apart=10)
HUMIDITY = Quantity("humidity", "humidity_percent", measures.percent, 0, 100, 1, apart=35)

# light
PPFD = Quantity("light reading", "ppfd", measures.light, 0, 5_000, 1, times=5,
    hint="Full sun is about 2,000; if the meter shows lux, say so.")  # fmt: skip
LUX = Quantity("lux reading", "lux", measures.lux, 0, 500_000, 0)
LIT_HOURS = Quantity("lit hours", "lit_hours", measures.hours, 0, 25)
DAILY_LIGHT = Quantity("daily light (DLI)", "dli_mol_m2_day", measures.moles, 0, 100)

# lamps and power
WATTS = Quantity("watts of one lamp", "watts", measures.watts, 0, 2_000, over=True)
AMPS = Quantity("amps of one lamp", "amps", measures.amps, 0, 100, 3, over=True)
VOLTS = Quantity("voltage", "volts", measures.volts, 0, 1_000, 1, over=True)
BREAKER = replace(AMPS, name="breaker", key="breaker_amps", high=1_000)
LOAD = replace(BREAKER, name="amps of a load", key="amps", over=False)
POWER_FACTOR = Quantity("power factor", "power_factor", measures.plain, 0, 1, over=True)
SHARE = Quantity("continuous share", "share_percent", measures.percent, 0, 100, over=True)
LAMP_HEIGHT = Quantity("lamp height", "height_mm", measures.millimetres, 10, 3_000, 1)
PACK_PRICE = Price("price per pack", "price_per_pack", 10**7)
SOLD = Price("amount sold", "sold", measures.MOST)
MARGIN = Quantity("margin", "margin_percent", measures.percent, 0, 99, 1)
PRICE = Price("price per kWh", "price_per_kwh", 10**5)

# trials
USUAL_SPREAD = Quantity("spread", "spread_percent", measures.percent, 0, 1_000, over=True)
DIFFERENCE = USUAL_SPREAD.named("difference", "gap_percent")
POWER = USUAL_SPREAD.named("power", "power_percent")
SEED_PRICE = Price("price of seed", "seed_price_per_kg")
HOUR_PRICE = Price("price of an hour", "price_per_hour", 10**7)
WORK = Quantity("minutes of work", "minutes_per_tray", measures.plain, 0, 1_440)
PRIORITY = Quantity("priority", "priority", measures.plain, 0, 1_000)

# counts
LAMPS = Count("number of lamps", "lamps", 200)
RACKS = Count("number of racks", "racks", 50)
SHELVES = Count("number of shelves", "shelves", 20)
STACK = Count("stack height", "stack_height", 10)
SLOTS = Count("number of slots", "slots", 100)
SEEDS_SOWN = Count("number of seeds sown", "sown", 100_000)
SEEDS_UP = Count("number of seedlings", "up", 100_000, 0)
TRAYS = Count("number of trays", "trays", 500)
PACKS = Count("number of packs or trays", "packs", 10_000)
COPIES = Count("number of copies", "copies", 1000)
SKIPPED = Count("number of used labels", "skip", 100, 0)
PACK = Quantity("weight of a pack", "pack_grams", measures.grams, 1, 100_000)
REPLICATES = Count("number of trays per arm", "repeats", 5_000)
WEEKS = Count("number of weeks", "weeks", 52, 0)
PLAN_WEEKS = Count("number of weeks", "weeks", 52)
LEAD_DAYS = Count("days until a bag comes", "lead_days", 365, 0)
LAYOUT_NUMBER = Count("layout number", "seed", 999_999, 0)
INCHES_UP_TO = 24
"""Trays are called 10x20 or 5x5 after their inches (common practice, no source)."""


def tray_size(text: str, units: Units = "metric") -> tuple[float, float]:
    """Read "10x20in" or "25 × 50 cm" as length and width in mm, the longer first.

    A unit after one side is that of both. Bare whole numbers up to 24 are inches, as the trade names
    its trays; other bare numbers are cm, or inches in US units.
    """
    parts = re.split(r"[x×*]|\bby\b", clean(text, lines=False).casefold())
    if len(parts) != 2:
        raise Refused(f'The tray size "{clean(text)[:40]}" must be like 10x20in or 25x50cm.')
    given = [amount(part, "tray size") for part in parts]
    written = next((one.unit for one in given if one.unit), "")
    if not written and all(one.value == round(one.value) <= INCHES_UP_TO for one in given):
        written = "in"
    sides = [
        TRAY_SIDE.read(part if one.unit else f"{part} {written}", units)
        for part, one in zip(parts, given, strict=True)
    ]
    return max(sides), min(sides)
