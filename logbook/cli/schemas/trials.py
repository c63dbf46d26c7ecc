"""Schemas of the trials in the book."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas.shapes import (
    Schema,
    many,
    moment,
    number,
    or_null,
    text,
    thing,
    tray,
    trays,
    truth,
    whole,
)
from logbook.cli.schemas.sums import CHANCE, COMPARE

_SPREAD: dict[str, Any] = {
    "spread_percent": or_null(number("Spread from tray to tray.", least=0)),
    "spread_rests_on_trays": or_null(whole()),
}
_POINTS = many(thing("", arm=text(), points=number()), "Arms by points, the first one first.")
_BY_NAME: Schema = {"type": "object", "additionalProperties": {"type": "number"}}


def _measured(words: str, unit: str) -> Schema:
    """Give the shape of one thing that is measured besides grams, its figures in the unit."""
    arm: dict[str, Any] = {
        f"mean_{unit}": or_null(number()),
        f"sd_{unit}": or_null(number(least=0)),
    }
    gap: dict[str, Any] = {f"{name}_{unit}": number() for name in ("gap", "low", "high")}
    return thing(
        words,
        design=or_null(text()),
        arms=many(thing("", arm=text(), n=whole(), **arm)),
        f=or_null(number()),
        df_arm=or_null(number()),
        df_error=or_null(number()),
        p=or_null(CHANCE),
        pairs=many(thing("", a=text(), b=text(), **gap, p=CHANCE)),
        words=text(),
    )


LIST = thing(
    "The trials, the newest first.",
    trials=many(
        thing(
            "",
            trial=text(),
            crop=text(),
            question=text(),
            thing=text("What differs between the arms."),
            arms=many(text()),
            trays=whole(),
            off_the_rack=whole("Trays that are cut or discarded."),
            state=text("set up, running, decided …"),
        )
    ),
)
NEW = thing(
    "A trial as it was set up, or would be with --dry-run.",
    trial=text(),
    thing=text(),
    arms=many(thing("", arm=text(), setting=text())),
    blocks=text("What groups trays that share their luck; empty for nothing."),
    trays_per_arm=whole(least=1),
    seed=whole("The number that draws the layout."),
    **_SPREAD,
    gaps=many(thing("", gap_percent=number(), trays_per_arm=or_null(whole()))),
    gap_seen_percent=or_null(number("The gap that so many trays show.", least=0)),
    layout=many(thing("", block=text(), arm=text()), "Spot after spot."),
)
SOW = thing(
    "What was sown, or would be with --dry-run.",
    trial=text(),
    week=whole(least=1),
    planned=truth(),
    sow_at=moment(),
    arms=many(thing("", arm=text(), colour=text(), trays=trays(), batch=or_null(text()))),
    order=trays("The trays in the drawn order."),
    places=many(text(), "Where each of them stands, in the same order; empty for nowhere yet."),
)
_VIEW: dict[str, Any] = {
    "trial": text(),
    "question": text(),
    "thing": text(),
    "crop": text(),
    "seed": or_null(whole()),
    **_SPREAD,
    "still_growing": whole("Trays that are not cut yet."),
    "judged": or_null(COMPARE),
    "why_not": text("Why it cannot be judged; empty when it is."),
    "likeness": thing(
        "Whatever else differs between the arms.",
        differs=many(
            thing(
                "",
                fact=text(),
                by_arm={"type": "object", "additionalProperties": {"type": ["string", "array"]}},
            )
        ),
        not_separable=many(many(text())),
        not_recorded={"type": "object", "additionalProperties": {"type": "array"}},
        alike=many(text()),
        words=many(text()),
    ),
    "measured": thing(
        "What is measured besides grams, where anything of it is recorded.",
        optional=("height", "days"),
        height=_measured("Height at the last look.", "mm"),
        days=_measured("Days from sowing to the cut.", "days"),
    ),
    "cost_per_100_g": _BY_NAME,
    "cost_not_known": many(text()),
    "weighed_up": or_null(_POINTS),
    "decisions": many(thing("", decided=text(), try_next=text(), at=moment(), by=text())),
    "words": text("What may be made of it."),
}
JUDGE = thing("A trial judged.", **_VIEW)
SHOW = thing(
    "A trial judged, with its trays.",
    **_VIEW,
    trays=many(
        thing(
            "",
            tray=tray(),
            arm=text(),
            block=or_null(text()),
            week=whole(),
            grams=or_null(number(least=0)),
            left_out=text("Why it is left out; empty when it is not."),
        )
    ),
)
TASTE = thing(
    "A tasting: the code of each arm, or with --taster the order for one person.",
    optional=("codes", "taster", "order"),
    trial=text(),
    tasting=whole(least=1),
    ranks=truth("Whether ranks are asked for instead of scores."),
    codes={"type": "object", "additionalProperties": {"type": "string"}},
    taster=text(),
    order=many(text()),
)
WEIGH_UP = thing(
    "What counts, and which arm comes first by it.",
    weights=_BY_NAME,
    places=_POINTS,
    flips=many(
        thing(
            "A weight that would put another arm first.",
            criterion=text(),
            weight=number(),
            needed=number(),
            arm=text(),
        )
    ),
    words=text(),
)
