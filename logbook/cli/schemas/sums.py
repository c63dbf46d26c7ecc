"""Schemas of the calculators."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas.shapes import (
    either,
    many,
    number,
    or_null,
    text,
    thing,
    truth,
    whole,
)

CHANCE = {"type": "number", "minimum": 0, "maximum": 1}
_CAUTIONS = many(text(), "What to beware of, a sentence each.")

LIGHT = thing(
    "Evenness and daily light.",
    readings=whole(),
    mean_ppfd=number("µmol/m²/s, as all of these."),
    least_ppfd=number(),
    most_ppfd=number(),
    min_over_mean=or_null(number()),
    min_over_max=or_null(number()),
    cv_percent=or_null(number()),
    hours=or_null(number()),
    dli_mol_m2_day=or_null(number()),
    want_dli_mol_m2_day=or_null(number()),
    hours_needed=or_null(number()),
    can_be_met=or_null(truth()),
    estimated_from_lux=truth(),
)
POWER = thing(
    "Watts, energy and cost a day.",
    watts=number(),
    kwh_per_day=or_null(number()),
    cost_per_day=or_null(number("In the money of the price.")),
    volts=or_null(number()),
    amps=or_null(number()),
    va=or_null(number()),
    power_factor=or_null(number()),
    cautions=_CAUTIONS,
)
CIRCUIT = thing(
    "A circuit's load against its breaker.",
    amps=number(),
    breaker_amps=number(),
    continuous_limit_amps=number(),
    continuous_limit_watts=number(),
    share_percent=number("Of the breaker."),
    share_of_limit_percent=number(),
    left_amps=number("Negative when it is over."),
    within=truth(),
    words=text(),
    cautions=_CAUTIONS,
)
AIR = thing(
    "What the air is like.",
    temperature_c=number(),
    humidity_percent=number(),
    vpd_kpa=number("Vapour pressure deficit."),
    dew_point_c=or_null(number()),
    leaf_vpd_kpa=or_null(number("From the leaf's temperature.")),
)
DILUTE = thing(
    "Stock and water.",
    stock_ml=number(),
    water_ml=number(),
    stock_percent=number(),
    want_percent=number(),
    want_ppm=number(),
    parts_water=number("Parts of water to one of stock."),
    kind=or_null(text("What the product is known as.")),
    cautions=_CAUTIONS,
)
SEED = thing(
    "Seeds and grams for a tray.",
    seeds=number("Plants wanted."),
    seeds_sown=number(),
    grams=number(),
    pure_live_share=CHANCE,
    tray_cm2=number(),
    least_germination_percent=or_null(number("Of seed sold in the US, where one is set.")),
    caution=or_null(text()),
)
COMPARE = thing(
    "Arms of a trial.",
    design=text(),
    arms=many(
        thing("", arm=text(), n=whole(), mean_grams=or_null(number()), sd_grams=or_null(number()))
    ),
    f=or_null(number()),
    df_arm=or_null(number()),
    df_error=or_null(number()),
    p=or_null(CHANCE),
    block_f=or_null(number()),
    cv_percent=or_null(number("Spread from tray to tray.")),
    pairs=many(
        thing(
            "",
            a=text(),
            b=text(),
            gap_grams=number("a less b."),
            low=or_null(number("Lower bound of the gap, 95 %.")),
            high=or_null(number()),
            p=or_null(CHANCE),
        )
    ),
    chance_of_such_a_gap=or_null(CHANCE),
    trays_per_arm_to_settle=or_null(whole()),
    words=text("The verdict."),
)
_GAP: dict[str, Any] = {"gap_percent": number(), "trays_per_arm": or_null(whole())}
_BASIS: dict[str, Any] = {
    "spread_percent": number(),
    "power_percent": number(),
    "arms": whole(least=2),
}
REPEATS = either(
    "Trays an arm for one gap, or for a table of gaps.",
    thing("", **_GAP, **_BASIS),
    thing("", **_BASIS, gaps=many(thing("", **_GAP))),
)
TRIANGLE = thing(
    "Whether tasters can tell two samples apart.",
    tasters=whole(),
    right=whole(),
    needed=or_null(whole("Fewest right answers that show it.")),
    chance=CHANCE,
    words=text(),
)
RANKS = thing(
    "Tasters' ranks.",
    tasters=whole(),
    left_out=many(text()),
    samples=many(thing("", sample=text(), rank_sum=number(), mean_rank=number())),
    chi_square=or_null(number()),
    df=or_null(whole()),
    p=or_null(CHANCE),
    p_counted=or_null(CHANCE),
    words=text(),
)
