"""`logbook reckon` for the room: light, power, circuit, air, dilute, seed."""

from __future__ import annotations

import click

from logbook.cli.printing import answers, tell
from logbook.cli.wordy import ManyOption, WordyCommand, many_values
from logbook.growing import measures, quantities
from logbook.growing.measures import hours_words, number_words
from logbook.text import Refused, plural


@click.command(cls=WordyCommand)
@click.option("--ppfd", cls=ManyOption, help="Readings at tray height, µmol/m²/s.")
@click.option("--lux", cls=ManyOption, help="Readings in lux instead; needs --lamp.")
@click.option("--lamp", metavar="KIND", help='Kind of lamp for --lux, such as "white LED".')
@click.option("--hours", metavar="HOURS", help="Lit hours a day.")
@click.option("--want-dli", metavar="MOL", help="Wanted daily light, mol/m² a day.")
@answers("logbook.growing.reckoned:LightSum")
def light(
    ppfd: tuple[str, ...], lux: tuple[str, ...], lamp: str | None, hours: str | None,
    want_dli: str | None,
) -> None:  # fmt: skip
    """Evenness and daily light of a shelf's readings."""
    from logbook.growing.reckoned import LightSum
    from logbook.growing.room import light as sums
    from logbook.growing.room.spots import uniformity

    if bool(ppfd) == bool(lux):
        raise Refused("Give the readings after --ppfd, or after --lux with --lamp.")
    if ppfd:
        readings = [quantities.PPFD.read(one) for one in many_values(ppfd, "light reading")]
        kind = None
    else:
        if lamp is None:
            raise Refused('Lux needs the kind of lamp beside it, like --lamp "white LED".')
        kind = sums.lamp_kind(lamp)
        readings = [
            sums.from_lux(quantities.LUX.read(one), kind).ppfd
            for one in many_values(lux, "lux reading")
        ]
    even = uniformity(readings)
    lit = quantities.LIT_HOURS.given(hours)
    daily = None if lit is None else sums.daily_light(even.mean, lit)
    wanted = quantities.DAILY_LIGHT.given(want_dli)
    needed = None if wanted is None else sums.hours_needed(even.mean, wanted)
    estimate = None if kind is None else sums.from_lux(even.mean * kind.lux_per_ppfd, kind)
    spread = f"{number_words(even.least)} to {number_words(even.most)}"
    lines = [
        f"{plural(even.count, 'reading')}: mean {number_words(even.mean)} µmol/m²/s, {spread}",
        f"evenness: {even.words}",
    ]
    if estimate is not None:
        lines.append(estimate.words)
    if daily is not None and lit is not None:
        lines.append(f"daily light: {number_words(daily, 2)} mol/m² in {hours_words(lit)}")
    if wanted is not None:
        lines.append(_wanted_words(wanted, needed))
    tell(LightSum(even, lit, daily, wanted, needed, estimate is not None), lines)


def _wanted_words(wanted: float, needed: float | None) -> str:
    opening = f"for {number_words(wanted, 2)} mol/m² a day:"
    if needed is None:
        return f"{opening} there is no light"
    if needed > 24:
        return f"{opening} {number_words(needed)} h, more than a day has; brighter lamps are needed"
    return f"{opening} {hours_words(needed)}"


@click.command(cls=WordyCommand)
@click.option("--watts", required=True, metavar="WATTS", help="Watts of one lamp.")
@click.option("--lamps", default="1", metavar="COUNT", help="How many lamps (1).")
@click.option("--hours", metavar="HOURS", help="Lit hours a day.")
@click.option("--price", metavar="MONEY", help="Price of a kWh.")
@click.option("--amps", metavar="AMPS", help="Amps of one lamp, from its label; needs --volts.")
@click.option("--volts", metavar="VOLTS", help="Volts of the supply, such as 120 or 230.")
@click.option("--power-factor", metavar="SHARE", help="Power factor, instead of --amps.")
@answers("logbook.growing.reckoned:PowerSum")
def power(
    watts: str, lamps: str, hours: str | None, price: str | None, amps: str | None,
    volts: str | None, power_factor: str | None,
) -> None:  # fmt: skip
    """Watts, kWh and cost a day of lamps."""
    from logbook.growing.reckoned import PowerSum
    from logbook.growing.room.power import WET_ROOM_CAUTIONS, draw, kwh

    drawn = draw(
        quantities.WATTS.read(watts),
        quantities.LAMPS.read(lamps),
        volts=quantities.VOLTS.given(volts),
        amps=quantities.AMPS.given(amps),
        power_factor=quantities.POWER_FACTOR.given(power_factor),
    )
    lit = quantities.LIT_HOURS.given(hours)
    each = quantities.PRICE.given(price)
    if each is not None and lit is None:
        raise Refused("A cost needs the lit hours a day; add --hours, like --hours 16.")
    energy = None if lit is None else kwh(drawn.watts, lit)
    cost = None if energy is None or each is None else energy * each
    lines = [f"{number_words(drawn.watts)} W"]
    if drawn.volt_amps is not None and drawn.amps is not None and drawn.power_factor is not None:
        lines[0] += (
            f", {number_words(drawn.volt_amps)} VA, {number_words(drawn.amps, 2)} A, "
            f"power factor {number_words(drawn.power_factor, 2)}"
        )
    if energy is not None and lit is not None:
        lines.append(f"{number_words(energy, 3)} kWh a day in {hours_words(lit)}")
    if cost is not None:
        lines.append(
            f"{number_words(cost, 2 if cost >= 0.1 else 4)} a day, "
            f"{number_words(cost * 30, 2)} in 30 days"
        )
    tell(PowerSum(drawn, energy, cost, WET_ROOM_CAUTIONS), [*lines, *WET_ROOM_CAUTIONS])


@click.command(cls=WordyCommand)
@click.option("--amps", cls=ManyOption, required=True, help="Amps of each load on the circuit.")
@click.option("--breaker", required=True, metavar="AMPS", help="Amps of the breaker.")
@click.option("--volts", required=True, metavar="VOLTS", help="Volts of the circuit.")
@click.option(
    "--share", default="80%", metavar="PERCENT", help="Of the breaker, for hours on end (80 %)."
)
@answers("logbook.growing.room.circuits:CircuitLoad")
def circuit(amps: tuple[str, ...], breaker: str, volts: str, share: str) -> None:
    """A circuit's load against its breaker."""
    from logbook.growing.room.circuits import circuit_load

    load = circuit_load(
        [quantities.LOAD.read(one) for one in many_values(amps, "amps of a load")],
        quantities.BREAKER.read(breaker),
        quantities.VOLTS.read(volts),
        quantities.SHARE.read(share) / 100,
    )
    tell(load, [load.words, *load.cautions])


@click.command(cls=WordyCommand)
@click.option("--temp", required=True, metavar="TEMPERATURE", help="Of the air: 21C or 70F.")
@click.option("--rh", required=True, metavar="PERCENT", help="Relative humidity.")
@click.option("--leaf", metavar="TEMPERATURE", help="Of the leaf: 20C or 68F.")
@answers("logbook.growing.reckoned:AirSum")
def air(temp: str, rh: str, leaf: str | None) -> None:
    """Vapour pressure deficit and dew point."""
    from logbook.growing.reckoned import AirSum
    from logbook.growing.room import air as sums

    celsius = quantities.TEMPERATURE.read(temp)
    humidity = quantities.HUMIDITY.read(rh)
    leaf_celsius = quantities.TEMPERATURE.named("leaf temperature").given(leaf)
    answer = AirSum(
        celsius,
        humidity,
        sums.vpd_kpa(celsius, humidity),
        sums.dew_point_c(celsius, humidity),
        None if leaf_celsius is None else sums.leaf_vpd_kpa(celsius, humidity, leaf_celsius),
    )
    tell(answer, [sums.air_words(celsius, humidity, leaf_celsius)])


@click.command(cls=WordyCommand)
@click.option("--stock", required=True, metavar="STRENGTH", help="Of the stock: 5.25% or ppm.")
@click.option("--want", required=True, metavar="STRENGTH", help="Wanted: 200ppm or 0.1%.")
@click.option("--volume", required=True, metavar="VOLUME", help="To make: 10L or 2 gal.")
@click.option("--product", default="", metavar="WORDS", help="What it is, such as bleach.")
@answers("logbook.growing.reckoned:DilutionSum")
def dilute(stock: str, want: str, volume: str, product: str) -> None:
    """Stock and water for a wanted strength."""
    from logbook.growing.reckoned import DilutionSum
    from logbook.growing.room import solutions

    if not measures.amount(volume, "volume").unit:
        raise Refused(f'The volume "{volume[:40]}" needs L, ml or gal, like 10 L.')
    made = solutions.dilute(
        quantities.STOCK.read(stock), quantities.WANTED.read(want), quantities.VOLUME.read(volume)
    )
    kind = solutions.product_kind(product)
    minded = solutions.cautions(kind, made.stock_percent, made.want_percent)
    tell(DilutionSum(made, kind, minded), [made.words(), *minded])


@click.command(cls=WordyCommand)
@click.option("--per-cm2", required=True, metavar="NUMBER", help="Plants wanted on a cm².")
@click.option("--tray", required=True, metavar="SIZE", help="Such as 10x20in or 25x50cm.")
@click.option("--tsw", required=True, metavar="WEIGHT", help="Grams of a thousand seeds.")
@click.option("--purity", default="100", metavar="PERCENT", help="Pure seed by weight (100).")
@click.option("--germination", default="100", metavar="PERCENT", help="Seeds that come up (100).")
@click.option("--crop", metavar="NAME", help="To hold the germination against US rules.")
@answers("logbook.growing.reckoned:SeedSum")
def seed(
    per_cm2: str, tray: str, tsw: str, purity: str, germination: str, crop: str | None
) -> None:
    """Seeds and grams for a wanted density."""
    from logbook.growing.crops import seeding
    from logbook.growing.reckoned import SeedSum

    area = seeding.tray_area_cm2(*quantities.tray_size(tray))
    comes_up = quantities.GERMINATION.read(germination)
    need = seeding.seed_need(
        quantities.DENSITY.read(per_cm2),
        area,
        quantities.THOUSAND.read(tsw),
        quantities.PURITY.read(purity),
        comes_up,
    )
    caution = None if crop is None else seeding.germination_words(crop, comes_up)
    least = None if crop is None else seeding.least_germination(crop)
    tell(SeedSum(need, area, least, caution), [need.words, *([caution] if caution else [])])
