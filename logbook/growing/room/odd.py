"""A reading far from those before it, or from what crops want: it is asked about once."""

import statistics
from collections.abc import Collection

from logbook.growing.bands import Band
from logbook.growing.measures import Units, number_words
from logbook.growing.quantities import AIR, EC, HUMIDITY, PH, WATER, Quantity

READ = {"celsius": AIR, "humidity": HUMIDITY, "ph": PH, "ec": EC, "millilitres": WATER}
"""What is read of air and water, by its name in readings and in what crops want."""


def odd(
    quantity: Quantity, value: float, before: Collection[float], wished: Collection[Band] = (),
    units: Units = "metric", *, here: bool = True,
) -> str:  # fmt: skip
    """What to ask of a reading that is near none `before` it, nor wished; '' where it may be right.

    Without any before it, it is held against the ends of what is wished, or of what is common. `here`
    says that those before it are of the same trays or place.
    """
    ends = [end for band in wished for end in (band.low, band.high) if end is not None]
    others = before or ends
    within = any(band.side(value) == 0 for band in wished)
    least, most = quantity.common
    asked = f"Is the {quantity.name} really {quantity.text(value, units)}?"
    if not others and not least <= value <= most:
        span = f"{number_words(least)} to " if least > 0 else "up to "
        return f"{asked} It is mostly {span}{quantity.scale.write(most, units, grouped=True)}."
    if within or not others or any(quantity.near(value, each) for each in others):
        return ""
    usual = statistics.median(before) if before else min(ends, key=lambda end: abs(end - value))
    last = f"The last readings {'here' if here else 'on other trays'} are"
    whose = last if before else "The crops here want"
    scale, digits = quantity.scale, min(2, quantity.digits)
    about = f"{number_words(scale.shown(usual, units), digits)} {scale.bare(units)}".rstrip()
    return f"{asked} {whose} about {about}."
