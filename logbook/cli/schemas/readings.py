"""Schemas of what is measured and what it costs: lamps, light, air, water, solution, bills."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas.shapes import (
    Schema,
    day,
    either,
    many,
    moment,
    number,
    one_of,
    or_null,
    text,
    thing,
    trays,
    truth,
    whole,
)

WRITTEN = thing(
    "What was written, where the command wrote something.",
    entry=whole("The entry's number.", least=1),
    words=text(),
    notices=many(text(), "What is worth knowing, a sentence each."),
)
_HOURS = or_null(text("Lamp hours by the wall clock: 06:00–22:00."))
_DRAW: dict[str, Any] = {
    "watts": or_null(number("Of all lamps of the shelf.", least=0)),
    "volt_amps": or_null(number(least=0)),
    "power_factor": or_null(number(least=0)),
}


def _shown_or_written(shown: Schema) -> Schema:
    return either("What there is, or what was written.", shown, WRITTEN)


LAMPS = _shown_or_written(
    thing(
        "The lamps of every shelf.",
        shelves=many(
            thing(
                "",
                place=text(),
                lamps=or_null(whole("How many; null where none are known.")),
                watts_each=or_null(number(least=0)),
                amps_each=or_null(number(least=0)),
                volts=or_null(number(least=0)),
                **_DRAW,
                kind=text(),
                light=text("Colour of the light, in own words."),
                height_mm=or_null(number("From the shelf to the lamp.", least=0)),
                bought=or_null(day()),
                hours=_HOURS,
                lit_hours_today=or_null(number(least=0)),
            )
        ),
    )
)
_PPFD = "µmol/m²/s at tray height."
LIGHT = _shown_or_written(
    thing(
        "The light of one shelf, or of all that were measured.",
        shelves=many(
            thing(
                "",
                place=text(),
                mean_ppfd=or_null(number(_PPFD, least=0)),
                min_over_mean=or_null(number(least=0)),
                min_over_max=or_null(number(least=0)),
                cv_percent=or_null(number(least=0)),
                lit_hours_today=or_null(number(least=0)),
                dli_mol_m2_day=or_null(number(least=0)),
                estimated_from_lux=truth(),
                verdicts=many(
                    thing(
                        "What it is for a crop that stands there.",
                        crop=text(),
                        verdict=one_of("too little", "enough", "too much"),
                        hours_needed=or_null(number(least=0)),
                        cost_change_per_day=or_null(number("In the money of the tariff.")),
                        words=text(),
                    )
                ),
                surveys=many(
                    thing(
                        "A walk round the shelf with the meter.",
                        entry=whole(least=1),
                        at=moment(),
                        by=text(),
                        mean_ppfd=or_null(number(_PPFD, least=0)),
                        percent_of_first=or_null(number(least=0)),
                        height_mm=or_null(number("From the trays to the lamp.", least=0)),
                        lux_lamp=text("The lamp of an estimate from lux; empty otherwise."),
                        spots=many(
                            thing("", row=whole(), column=whole(), ppfd=number(_PPFD, least=0))
                        ),
                    )
                ),
            )
        ),
    )
)
_MEANS = or_null(
    thing(
        "Means over lit or dark hours.",
        celsius=or_null(number()),
        humidity_percent=or_null(number()),
        vpd_kpa=or_null(number("Vapour pressure deficit.")),
        hours=or_null(number(least=0)),
    )
)
_BAND = or_null(
    thing(
        "Hours against what the crop wants.",
        hours_below=number(least=0),
        hours_within=number(least=0),
        hours_above=number(least=0),
        hours_unknown=number(least=0),
    )
)
AIR = _shown_or_written(
    thing(
        "The air of a place over some hours.",
        place=text(),
        measured_at=text("The place whose readings these are."),
        from_=moment(),
        to=moment(),
        lit=_MEANS,
        dark=_MEANS,
        crops=many(thing("", crop=text(), temperature=_BAND, humidity=_BAND)),
        mould_caution=or_null(
            thing(
                "Still and damp for long.",
                from_=moment(),
                to=moment(),
                hours=number(),
                words=text(),
            )
        ),
        readings=many(
            thing(
                "",
                at=moment(),
                celsius=number(),
                humidity_percent=number(),
                vpd_kpa=number(),
                dew_point_c=or_null(number()),
                still=or_null(truth("Whether the air stood still; null when nobody said.")),
            )
        ),
    )
)
WATER = _shown_or_written(
    thing(
        "What was measured of the water.",
        readings=many(
            thing(
                "",
                at=moment(),
                by=text(),
                trays=trays(),
                place=text(),
                ph=or_null(number()),
                ec_ms_cm=or_null(number(least=0)),
                millilitres_per_tray=or_null(number(least=0)),
                out_of_band=many(text(), "What lies outside of what the crop wants."),
            )
        ),
    )
)
SOLUTION = _shown_or_written(
    thing(
        "What was cleaned, how and with what.",
        uses=many(
            thing(
                "",
                entry=whole(least=1),
                at=moment(),
                by=text(),
                place=text(),
                purpose=text(),
                method=text(),
                product=text(),
                stock_percent=or_null(number(least=0)),
                want_percent=or_null(number(least=0)),
                volume_ml=or_null(number(least=0)),
                note=text(),
            )
        ),
    )
)
_PRICE = number("In your money.", least=0)
TARIFF = _shown_or_written(
    thing(
        "The prices of a kWh, oldest first.",
        tariffs=many(
            thing(
                "",
                from_=day("From which day it holds."),
                price_per_kwh=_PRICE,
                other_hours=many(thing("", hours=text(), price_per_kwh=_PRICE)),
            )
        ),
    )
)
_CIRCUIT = thing(
    "A circuit and its load.",
    circuit=text(),
    shelves=many(text()),
    amps=number(least=0),
    breaker_amps=number(least=0),
    volts=number(least=0),
    continuous_limit_amps=number(least=0),
    share_percent=number("Of the breaker.", least=0),
    within=truth(),
    amps_guessed_for=many(text(), "Shelves whose lamps' amperes are reckoned from their watts."),
    words=text(),
)
CIRCUIT = _shown_or_written(thing("The circuits.", circuits=many(_CIRCUIT)))
_USE: dict[str, Any] = {
    "kwh": number(least=0),
    "cost": number("In the money of the tariff.", least=0),
    "unpriced_kwh": number("Used when no price was known.", least=0),
    "lit_hours": number(least=0),
    "unknown_hours": number("Lit with lamps that nobody wrote down.", least=0),
}
_BATCH = thing(
    "What light a batch had, and what it gave for it.",
    batch=text(),
    crop=text(),
    trays=whole(),
    ended_at=or_null(moment()),
    grams=or_null(number(least=0)),
    **_USE,
    mol=or_null(number("Light on its trays, mol.", least=0)),
    mol_m2_per_tray=or_null(number(least=0)),
    growing=whole("Trays that still grow; what follows is of the others."),
    grams_per_kwh=or_null(number(least=0)),
    grams_per_mol=or_null(number(least=0)),
    cost_per_100_g=or_null(number(least=0)),
)
BILLS = either(
    "What light costs; with --batch of one batch.",
    thing(
        "",
        days=whole("Days of the period.", least=1),
        today=thing("", **_USE),
        period=thing("", **_USE),
        shelves=many(
            thing(
                "",
                place=text(),
                **_DRAW,
                hours=_HOURS,
                kwh_per_day=number(least=0),
                cost_per_day=number(least=0),
                trays_in_light=whole(),
                cost_per_tray_today=or_null(number(least=0)),
                period=thing("", **_USE),
                tray_days=number(least=0),
                cost_per_tray_day=or_null(number(least=0)),
            )
        ),
        batches=many(_BATCH),
        circuits=many(_CIRCUIT),
    ),
    _BATCH,
)
