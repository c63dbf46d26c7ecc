"""Cut weights: what is impossible, what deserves a question, and how a shared weight is split."""

import re
from collections.abc import Iterable
from datetime import datetime

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.crops.yields import Expected
from logbook.growing.days import moment_words
from logbook.growing.measures import Units, grams, grams_words, number_words, range_words
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import CUT
from logbook.growing.trays.chores import RoomHours
from logbook.growing.trays.forecast import tray_window
from logbook.growing.trays.life import TrayState
from logbook.growing.trays.looks import DO_NOT_SELL
from logbook.text import Refused

FAR, LITTLE = 2.5, 0.25
"""Times the expected weight that are asked about: trays counted wrong, a digit lost or swapped."""


def checked_grams(grams: float, number: int) -> float:
    """The weight itself; raise Refused for one that no tray can have."""
    return CUT.named(f"weight of tray {number}").checked(grams)


def question(grams: float, expected: Expected | None, units: Units = "metric") -> str:
    """A question about an implausible weight, or '' for one that is as usual."""
    if grams == 0:
        return "0 g: did the tray die? It is kept apart from trays that were not weighed."
    odd = "a lot for one tray" if grams > 5_000 else ""
    if expected is not None and expected.grams > 0:
        times, usual = grams / expected.grams, grams_words(expected.grams, units)
        if times >= FAR:
            odd = f"{number_words(times, 0 if times >= 4 else 1)} times the expected {usual}"
        elif times <= LITTLE:
            odd = f"a {'tenth' if times <= 0.1 else 'quarter'} or less of the expected {usual}"
    return f"{grams_words(grams, units)} is {odd}: is that right?" if odd else ""


def refuse_both(part: bool, keep: bool) -> None:
    """Raise Refused for a cut that is said to be a part of a harvest and the end of it."""
    if part and keep:
        raise Refused(
            "Part or keep? A part cut has more of this harvest to come; a tray that is kept is cut "
            "and grows again."
        )


def doubt(
    grams: float, before: float, expected: Expected | None, *, part: bool = False,
    units: Units = "metric",
) -> str:  # fmt: skip
    """The question about a cut of a tray that gave `before` g already, or ''.

    A part cut may be as small as it likes; a last cut is judged with what was cut before it.
    """
    if grams == 0:
        return question(0, expected, units) if not before else ""
    if part and expected is not None:
        return question(max(before + grams, expected.grams), expected, units)
    return question(before + grams, expected, units)


def untimely(template: CropTemplate, state: TrayState, now: datetime, hours: RoomHours) -> str:
    """Why a growing tray isn't to be cut yet: its window is ahead, or it is covered; '' for neither."""
    window = tray_window(template, state, now) if state.status == "growing" else None
    if window is None:
        return ""
    said = []
    if window.state(now, hours, state.sign_at) == "soon":
        said.append(f"not due before {moment_words(window.start, now, hours.zone)}")
    stage = template.stages[state.stage]
    if stage.cover != "none":
        said.append(f"still covered ({stage.name})")
    return ", ".join(said)


def untimely_words(reasons: Iterable[tuple[int, str]]) -> list[str]:
    """Ask about trays (number, why) that aren't to be cut yet, those with one reason together."""
    groups: dict[str, list[int]] = {}
    for number, why in reasons:
        groups.setdefault(why, []).append(number)
    return [
        f"{'Tray' if len(some) == 1 else 'Trays'} {numbers_words(some)}: {why}."
        for why, some in groups.items()
        if why
    ]


def strangers(trays: Iterable[tuple[int, str]]) -> str:
    """Ask about trays (number, crop) of several crops on the scale together; '' for one crop."""
    crops: dict[str, list[int]] = {}
    for number, crop in trays:
        crops.setdefault(crop, []).append(number)
    if len(crops) < 2:
        return ""
    return (
        f"{', '.join(f'{numbers_words(some)} {crop}' for crop, some in crops.items())}: together?"
    )


_TERM = re.compile(r"([+\-−]?)\s*((?:\d[\d.,]*[½¼¾⅓⅔⅛]?|[.,]\d+|[½¼¾⅓⅔⅛])\s*[^\W\d_]*\.?)\s*")


def weight_of(text: str, units: Units = "metric") -> float:
    """Read a weight in g, or a sum of some: "320-38" with its tub, "1lb 2oz"; raise Refused."""
    terms = _TERM.findall(text)
    units_said = [bool(re.search(r"[^\W\d_]", each)) for _, each in terms]
    plain = any(
        not sign and not (units_said[at] and units_said[at - 1])
        for at, (sign, _) in enumerate(terms)
        if at
    )
    if len(terms) < 2 or plain or _TERM.sub("", text).strip():
        return grams(text, "weight", units)
    total = sum(grams(f"{sign}{each}", "weight", units) for sign, each in terms)
    if total < 0:
        raise Refused(f'"{text[:40]}" adds up to less than 0 g.')
    return total


def mould_words(number: int, seen: str) -> str:
    """Remind of mould that was seen on a tray on a day given in words, before it is weighed."""
    return f"Mould was seen on tray {number}, {seen}. {DO_NOT_SELL}"


def usual_words(expected: Expected, units: Units = "metric") -> str:
    """Write the usual range, which holds four trays in five: "usual 250–320 g"."""
    return f"usual {range_words(expected.low, expected.high, units)}"


def share_out(total: float, trays: int) -> tuple[float, ...]:
    """Split grams evenly over trays in tenths of a gram; they add up to it to the tenth."""
    tenths = round(total * 10)
    each, rest = divmod(tenths, trays)
    return tuple((each + (1 if place < rest else 0)) / 10 for place in range(trays))


def against_usual(grams: float, expected: Expected | None) -> str:
    """Say how a weight stands to the expected one: "8 % above expected"."""
    if expected is None or expected.grams <= 0:
        return ""
    percent = round((grams / expected.grams - 1) * 100)
    if percent == 0:
        return "as expected"
    return f"{abs(percent)} % {'above' if percent > 0 else 'below'} expected"
