"""`logbook reckon` for the room: light, power, circuit, air, dilute, seed.

Their answers put together values from several rules of the trade. `reckoned` marks views whose
numbers are not measured: JSON gives them to six figures.
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

import click

from logbook.cli.arguments import measured
from logbook.cli.printing import answers, tell
from logbook.cli.usage import WrongUsage
from logbook.cli.wordy import ManyOption, WordyCommand, many_values
from logbook.growing import measures, quantities
from logbook.growing.crops import seeding
from logbook.growing.crops.germination import germination_words, least_germination
from logbook.growing.currencies import Currency, currency_code, exact
from logbook.growing.measures import hours_words, number_words
from logbook.growing.room import air as airs
from logbook.growing.room import light as lights
from logbook.growing.room import products, solutions
from logbook.growing.room.light import Uniformity, uniformity
from logbook.growing.room.power import WET_ROOM_CAUTIONS, Draw, circuit_load, draw, kwh
from logbook.text import Refused, plural

LEAF = quantities.TEMPERATURE.named("leaf temperature")


@dataclass(frozen=True, slots=True)
class LightSum:
    """Evenness and daily light (DLI) from a shelf's readings."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        readings=even.count mean_ppfd=even.mean least_ppfd=even.least most_ppfd=even.most
        min_over_mean=even.min_over_mean min_over_max=even.min_over_max cv_percent=even.cv_percent
        hours dli_mol_m2_day want_dli_mol_m2_day hours_needed can_be_met estimated_from_lux
    """

    even: Uniformity
    hours: float | None
    """Lit hours per day."""
    want_dli_mol_m2_day: float | None
    estimated_from_lux: bool

    @property
    def dli_mol_m2_day(self) -> float | None:
        """Of the lit hours; null where those are not given."""
        return None if self.hours is None else lights.daily_light(self.even.mean, self.hours)

    @property
    def hours_needed(self) -> float | None:
        """Lit hours for the wanted light; null where there is no light, or none is wanted."""
        wanted = self.want_dli_mol_m2_day
        return None if wanted is None else lights.hours_needed(self.even.mean, wanted)

    @property
    def can_be_met(self) -> bool | None:
        """Whether a day is long enough for the wanted light."""
        if self.want_dli_mol_m2_day is None:
            return None
        return self.hours_needed is not None and self.hours_needed <= 24


@click.command(cls=WordyCommand)
@click.option("--ppfd", cls=ManyOption, help="Readings at tray height, µmol/m²/s.")
@click.option("--lux", cls=ManyOption, help="Readings in lux instead; needs --lamp.")
@click.option("--lamp", metavar="KIND", help='Kind of lamp for --lux, such as "white LED".')
@measured("--hours", quantities.LIT_HOURS, "HOURS", "Lit hours per day.")
@measured("--want-dli", quantities.DAILY_LIGHT, "MOL", "Daily light you want (DLI), mol/m²/d.")
@answers("logbook.cli.reckoning.room:LightSum")
def light(
    ppfd: tuple[str, ...], lux: tuple[str, ...], lamp: str | None, hours: float | None,
    want_dli: float | None,
) -> None:  # fmt: skip
    """Evenness and daily light (DLI) from a shelf's readings."""
    if bool(ppfd) == bool(lux):
        raise WrongUsage("Give the readings after --ppfd, or after --lux with --lamp.")
    kind = None
    if ppfd:
        readings = [quantities.PPFD.read(one) for one in many_values(ppfd, "light reading")]
    elif lamp is None:
        raise WrongUsage('With --lux, give the kind of lamp too, like --lamp "white LED".')
    else:
        kind = lights.lamp_kind(lamp)
        read = map(quantities.LUX.read, many_values(lux, "lux reading"))
        readings = [lights.from_lux(one, kind).ppfd for one in read]
    even = uniformity(readings)
    found = LightSum(even, hours, want_dli, kind is not None)
    digits = 0 if even.least >= 10 else 1
    mean, *ends = (number_words(each, digits) for each in (even.mean, even.least, even.most))
    lines = [
        f"{plural(even.count, 'reading')}: PPFD {mean} µmol/m²/s, {' to '.join(ends)}",
        f"evenness: {even.words}",
    ]
    if kind is not None:
        lines.append(lights.guessed(even.mean, kind).words)
    daily = found.dli_mol_m2_day
    if daily is not None and hours is not None:
        lines.append(f"DLI: {number_words(daily, 2)} mol/m²/d in {hours_words(hours)}")
    if want_dli is not None:
        lines.append(f"for DLI {number_words(want_dli, 2)} mol/m²/d: {_needed(found.hours_needed)}")
    tell(found, lines)


def _needed(hours: float | None) -> str:
    if hours is None:
        return "there is no light"
    if hours > 24:
        return f"{number_words(hours)} h, more hours than a day has; brighter lamps are needed"
    return hours_words(hours)


@dataclass(frozen=True, slots=True)
class PowerSum:
    """Watts, energy and cost a day of lamps."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        watts=draw.watts kwh_per_day cost_per_day volts=draw.volts amps=draw.amps va=draw.volt_amps
        power_factor=draw.power_factor currency=money.code cautions
    """

    draw: Draw
    kwh_per_day: float | None
    cost_per_day: Decimal | None
    """In the money of the price."""
    money: Currency
    cautions: tuple[str, ...] = WET_ROOM_CAUTIONS


@click.command(cls=WordyCommand)
@measured("--watts", quantities.WATTS, "WATTS", "Watts of one lamp.", required=True)
@measured("--lamps", quantities.LAMPS, "COUNT", "How many lamps (1).", default="1")
@measured("--hours", quantities.LIT_HOURS, "HOURS", "Lit hours per day.")
@measured("--price", quantities.PRICE, "MONEY", "Price per kWh, like 0.30.")
@click.option("--currency", type=currency_code, metavar="CODE", help="Its currency, like EUR.")
@measured("--amps", quantities.AMPS, "AMPS", "Amps of one lamp, from its label; needs --volts.")
@measured("--volts", quantities.VOLTS, "VOLTS", "Volts of the supply, such as 120 or 230.")
@measured("--power-factor", quantities.POWER_FACTOR, "SHARE", "Power factor, instead of --amps.")
@answers("logbook.cli.reckoning.room:PowerSum")
def power(
    watts: float, lamps: int, hours: float | None, price: Decimal | None, currency: str | None,
    amps: float | None, volts: float | None, power_factor: float | None,
) -> None:  # fmt: skip
    """Watts, kWh and daily cost of lamps."""
    drawn = draw(watts, lamps, volts=volts, amps=amps, power_factor=power_factor)
    if price is not None and hours is None:
        raise WrongUsage("A cost needs the lit hours per day; add --hours, like --hours 16.")
    energy = None if hours is None else kwh(drawn.watts, hours)
    cost = None if energy is None or price is None else exact(energy) * price
    money = Currency(currency)
    lines = [drawn.words]
    if energy is not None and hours is not None:
        lines.append(f"{number_words(energy, 3)} kWh per day in {hours_words(hours)}")
    if cost is not None:
        lines.append(f"{money.rate(cost)} a day, {money.total(cost * 30)} in 30 days")
    tell(PowerSum(drawn, energy, cost, money), [*lines, *WET_ROOM_CAUTIONS])


@click.command(cls=WordyCommand)
@click.option("--amps", cls=ManyOption, required=True, help="Amps of each load on the circuit.")
@measured("--breaker", quantities.BREAKER, "AMPS", "Amps of the breaker.", required=True)
@measured("--volts", quantities.VOLTS, "VOLTS", "Volts of the circuit.", required=True)
@measured(
    "--share", quantities.SHARE, "PERCENT", "Share of the breaker's rating for a continuous load (80 %).",
    default="80%",
)  # fmt: skip
@answers("logbook.growing.room.power:CircuitLoad")
def circuit(amps: tuple[str, ...], breaker: float, volts: float, share: float) -> None:
    """A circuit's load against its breaker."""
    loads = [quantities.LOAD.read(one) for one in many_values(amps, "amps of a load")]
    load = circuit_load(loads, breaker, volts, share / 100)
    tell(load, [load.words, *load.cautions])


@dataclass(frozen=True, slots=True)
class AirSum:
    """What air is like."""

    reckoned: ClassVar = True
    temperature_c: float
    humidity_percent: float
    vpd_kpa: float
    """Vapour pressure deficit."""
    dew_point_c: float | None
    leaf_vpd_kpa: float | None
    """From the leaf's temperature."""


@click.command(cls=WordyCommand)
@measured(
    "--temp", quantities.TEMPERATURE, "TEMPERATURE", "Air temperature: 21C or 70F.", required=True
)
@measured("--rh", quantities.HUMIDITY, "PERCENT", "Relative humidity.", required=True)
@measured("--leaf", LEAF, "TEMPERATURE", "Leaf temperature: 20C or 68F.")
@answers("logbook.cli.reckoning.room:AirSum")
def air(temp: float, rh: float, leaf: float | None) -> None:
    """Vapour pressure deficit (VPD) and dew point."""
    below = None if leaf is None else airs.leaf_vpd_kpa(temp, rh, leaf)
    answer = AirSum(temp, rh, airs.vpd_kpa(temp, rh), airs.dew_point_c(temp, rh), below)
    tell(answer, [airs.air_words(temp, rh, leaf)])


@dataclass(frozen=True, slots=True)
class DilutionSum:
    """Stock and water for the strength you want."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        stock_ml=made.stock_ml water_ml=made.water_ml stock_percent=made.stock_percent
        want_percent=made.want_percent want_ppm=made.want_ppm parts_water=made.parts_water kind
        cautions
    """

    made: solutions.Dilution
    kind: str | None
    """What the product is known as."""
    cautions: tuple[str, ...]
    """What to beware of, a sentence each."""


@click.command(cls=WordyCommand)
@measured(
    "--stock", quantities.STOCK, "STRENGTH", "Strength of the stock: 5.25% or ppm.", required=True
)
@measured(
    "--want", quantities.WANTED, "STRENGTH", "Strength you want: 200ppm or 0.1%.", required=True
)
@click.option("--volume", required=True, metavar="VOLUME", help="How much to make: 10L or 2 gal.")
@click.option("--product", default="", metavar="WORDS", help="The product, such as bleach.")
@answers("logbook.cli.reckoning.room:DilutionSum")
def dilute(stock: float, want: float, volume: str, product: str) -> None:
    """Stock and water for the strength you want."""
    if not measures.amount(volume, "volume").unit:
        raise Refused(f'The volume "{volume[:40]}" needs L, ml or gal, like 10 L.')
    made = solutions.dilute(stock, want, quantities.VOLUME.read(volume))
    kind = products.product_kind(product)
    minded = products.cautions(kind, made.stock_percent, made.want_percent)
    tell(DilutionSum(made, kind, minded), [made.words(), *minded])


@dataclass(frozen=True, slots=True)
class SeedSum:
    """Seeds and grams for a tray."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        seeds=need.seeds seeds_sown=need.seeds_sown grams=need.grams
        pure_live_share=need.pure_live_share tray_cm2 tray_length_mm tray_width_mm
        least_germination_percent caution
    """

    need: seeding.SeedNeed
    tray_length_mm: float
    tray_width_mm: float
    tray_cm2: float
    least_germination_percent: float | None
    """The US standard, where there is one."""
    caution: str | None


@click.command(cls=WordyCommand)
@measured("--per-cm2", quantities.DENSITY, "NUMBER", "Plants you want per cm².", required=True)
@click.option(
    "--tray", required=True, type=quantities.tray_size, metavar="SIZE",
    help="Tray size, such as 10x20in or 25x50cm; 10x20 is inches.",
)  # fmt: skip
@measured("--tsw", quantities.THOUSAND, "WEIGHT", "Weight of a thousand seeds.", required=True)
@measured("--purity", quantities.PURITY, "PERCENT", "Pure seed by weight (100).", default="100")
@measured(
    "--germination",
    quantities.GERMINATION,
    "PERCENT",
    "Germination: seeds that come up (100).",
    default="100",
)
@click.option(
    "--crop", metavar="NAME", help="The crop, to compare germination with the US standard."
)
@answers("logbook.cli.reckoning.room:SeedSum")
def seed(
    per_cm2: float, tray: tuple[float, float], tsw: float, purity: float, germination: float,
    crop: str | None,
) -> None:  # fmt: skip
    """Seeds and grams for the density you want."""
    area = seeding.tray_area_cm2(*tray)
    need = seeding.seed_need(per_cm2, area, tsw, purity, germination)
    caution = None if crop is None else germination_words(crop, germination)
    least = None if crop is None else least_germination(crop)
    lines = [need.words, f"The tray is {measures.sides_words(tray)}."]
    tell(SeedSum(need, *tray, area, least, caution), [*lines, *([caution] if caution else [])])
