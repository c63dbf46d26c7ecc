"""The facts of a trial's trays that likeness compares: one line each, so that more are easy."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from logbook.growing.crops.template_fields import Compared, Told
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import hours_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trials.confounders import Confounders, Difference, Fact, Value, confounders
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.record import TrayRecord
from logbook.text import fold, listed, plural

Getter = Callable[[TrayRecord], Value | None]


@dataclass(frozen=True, slots=True)
class Asked:
    """A fact to compare.

    `of` are the things that it is itself a part of: a trial of such a thing does not list it.
    `after` says that it is known only once a tray is off the rack, `lit` only once in the light.
    `many` and `joint` are a Fact's.
    """

    name: str
    get: Getter
    unit: str = ""
    tolerance: float = 0.0
    of: tuple[str, ...] = ()
    after: bool = False
    lit: bool = False
    many: bool = False
    joint: str = "with"


def _soak_hours(record: TrayRecord) -> float | None:
    soaked, sown = record.state.soaked_at, record.state.sown_at
    if soaked is None:
        return None if record.template.soak_seconds else 0.0
    return None if sown is None else (sown - soaked).total_seconds() / 3600


def _of_template(field: Told, compared: Compared) -> Asked:
    """Ask for a field of the template that a tray was sown from."""

    def get(record: TrayRecord) -> Value | None:
        template = record.template
        if compared.of == "soak" and not template.soak_seconds and not record.state.soaked_at:
            return "no soak"
        value = getattr(template, field.attribute)
        if value in (None, "") or isinstance(value, (float, str)):
            return None if value == "" else value
        return field.value.words(value, "metric")

    of = (compared.of, *(field.factor or ())[:1])
    return Asked(compared.name, get, "", compared.tolerance, of, joint=compared.joint)


def _waterings(record: TrayRecord) -> float | None:
    """Count the waterings; a tray that wants some and has none written down is not recorded."""
    wants = any(stage.water_per_day for stage in record.template.stages)
    return None if wants and not record.waterings else float(record.waterings)


def _water_ml(record: TrayRecord) -> float | None:
    return None if _waterings(record) is None else record.water_ml


ASKED = (
    Asked("seed lot", lambda record: record.lot or None, joint="from"),
    Asked("seed sown", lambda record: record.seed_grams, "g a tray", 0.5, ("density",)),
    Asked("soak", _soak_hours, "h", 0.5, ("soak",)),
    *(_of_template(each, each.compared) for each in CropTemplate.fields if each.compared),
    Asked("waterings", _waterings, "", 0.5, ("water",), many=True),
    Asked("water given", _water_ml, "ml a tray in all", 20, ("water",)),
    Asked("shelf", lambda record: record.place or None, joint="on"),
    Asked("lamps", lambda record: record.around.lamps or None, of=("lamps",), lit=True, many=True),
    Asked(
        "lit hours", lambda record: record.around.lit_hours, "h a day", 0.25, lit=True, many=True
    ),
    Asked("mean light", lambda record: record.around.ppfd, "µmol", 5, lit=True),
    Asked("daily light", lambda record: record.around.dli, "mol a day", 0.5, lit=True),
    Asked("temperature", lambda record: record.around.celsius, "°C", 0.5),
    Asked("humidity", lambda record: record.around.humidity, "%", 3),
    Asked("sown by", lambda record: record.sown_by or None, joint="by"),
    Asked(
        "days from sowing to the cut", lambda record: record.days, "d", 0.1, after=True, many=True
    ),
    Asked("cut by", lambda record: record.cut_by or None, after=True, joint="by"),
)
"""Everything that is compared of each tray, besides its time of sowing and its stages."""

RED_STEMS = "watering (deep red stems)"
"""How a look that saw deep red stems stands among what differs."""


def trial_confounders(records: Sequence[TrayRecord], factor: str, zone: ZoneInfo) -> Confounders:
    """Compare everything that was recorded between the arms of a trial.

    Trays that do not count are left aside. What is known only of cut trays is compared once all
    are off the rack.
    """
    counted = [record for record in records if not record.left_out]
    arms = {str(record.number): record.arm for record in counted}
    found = confounders(arms, facts_of(counted, factor), factor_words(factor))
    red = _red_stems(counted, arms)
    extra = [*([red.words] if red else []), *_unmeasured(counted), *_cut_days(counted, zone)]
    if counted and not all(record.ended for record in counted):
        extra.append("Trays are still growing: days to the cut are compared when all are cut.")
    unlike = red is not None and factor != "water" and len(set(red.by_arm.values())) > 1
    differences = (*([red] if red and unlike else []), *found.differences)
    return replace(found, differences=differences, words=(*found.words, *extra))


def facts_of(records: Sequence[TrayRecord], factor: str) -> list[Fact]:
    """The facts of a trial's trays, without those that are the one thing itself."""
    over = all(record.ended for record in records)
    in_light = any(record.around.light_days for record in records)
    facts = [
        _fact(asked, records)
        for asked in ASKED
        if factor not in asked.of and (over or not asked.after) and (in_light or not asked.lit)
    ]
    facts.append(
        _fact(Asked("time of sowing", _sowing(records), "h after the first", 0.5), records)
    )
    if factor != "stages":
        facts += _stages(records)
    return facts


def _fact(asked: Asked, records: Sequence[TrayRecord]) -> Fact:
    values: Mapping[str, Value | None] = {
        str(record.number): asked.get(record) for record in records
    }
    return Fact(asked.name, values, asked.unit, asked.tolerance, asked.many, asked.joint)


def _sowing(records: Sequence[TrayRecord]) -> Getter:
    first: dict[int, datetime] = {}
    for record in records:
        sown = record.state.sown_at
        if sown is not None:
            first[record.run] = min(sown, first.get(record.run, sown))

    def hours_after(record: TrayRecord) -> float | None:
        sown = record.state.sown_at
        return None if sown is None else (sown - first[record.run]).total_seconds() / 3600

    return hours_after


def _stages(records: Sequence[TrayRecord]) -> list[Fact]:
    """The hours in each stage that every tray has left; the last one follows from the cut."""
    facts = []
    for name in dict.fromkeys(
        stage.name for record in records for stage in record.template.stages[:-1]
    ):
        spent = {str(record.number): record.stage_hours.get(name) for record in records}
        if all(hours is not None for hours in spent.values()):
            facts.append(Fact(f'time in "{name}"', spent, "h", 2.0))
    return facts


def _red_stems(records: Sequence[TrayRecord], arms: Mapping[str, str]) -> Difference | None:
    """Put watering on the list where a look saw deep red stems (common practice, no source)."""
    red = [record for record in records if any(_deep_red(words) for words in record.stems)]
    if not red:
        return None
    by_arm = {arm: _red_share(arm, red, records) for arm in dict.fromkeys(arms.values())}
    named = listed(list(dict.fromkeys(record.arm for record in red)), most=4)
    trays = f"{'tray' if len(red) == 1 else 'trays'} {numbers_words(r.number for r in red)}"
    said = (
        f"Watering may differ: a look saw deep red stems on {trays} ({named}), usually a sign that "
        "a tray went short of water, unless the crop is red anyway; it could explain part of it."
    )
    return Difference(RED_STEMS, by_arm, said)


def _unmeasured(records: Sequence[TrayRecord]) -> list[str]:
    """Say how many lit hours no survey covers: one sentence for trays whose light is known for the
    rest, and one for the others.
    """  # noqa: D205
    groups: dict[bool, list[TrayRecord]] = {}
    for record in records:
        if record.around.unmeasured_hours >= 1 / 60:
            groups.setdefault(record.around.ppfd is not None, []).append(record)
    said = []
    for known, trays in groups.items():
        missing = _least_to_most([record.around.unmeasured_hours for record in trays])
        lit = _least_to_most([record.around.lit_in_all for record in trays])
        rest = (
            "mean and daily light are those of the time that was measured"
            if known
            else "too little was measured to say mean and daily light"
        )
        numbers = numbers_words(record.number for record in trays)
        which = f"tray{'' if len(trays) == 1 else 's'} {numbers}"
        said.append(
            f"Light was not measured for {missing} of {lit} under lit lamps ({which}): {rest}."
        )
    return said


def _least_to_most(hours: Sequence[float]) -> str:
    """Write hours of several trays: "16 h", "15 h 30 min to 16 h"."""
    return " to ".join(dict.fromkeys(hours_words(end) for end in (min(hours), max(hours))))


def _red_share(arm: str, red: Sequence[TrayRecord], records: Sequence[TrayRecord]) -> str:
    seen = sum(record.arm == arm for record in red)
    trays = sum(record.arm == arm for record in records)
    if not seen:
        return "none seen"
    return "all trays" if seen == trays else f"{seen} of {plural(trays, 'tray')}"


def _deep_red(words: str) -> bool:
    folded = fold(words)
    return "red" in folded.split() and any(each in folded for each in ("deep", "dark", "very"))


def _cut_days(records: Sequence[TrayRecord], zone: ZoneInfo) -> list[str]:
    """Say where trays of one run were cut on different days, with the arms of each day."""
    runs: dict[int, dict[date, list[TrayRecord]]] = {}
    for record in records:
        if record.days is not None and record.state.ended_at is not None:
            day = day_of(record.state.ended_at, zone)
            runs.setdefault(record.run, {}).setdefault(day, []).append(record)
    said = []
    for days in runs.values():
        if len(days) < 2:
            continue
        by_day = [
            f"{day_words(day)} {listed(list(dict.fromkeys(r.arm for r in trays)), most=4)}"
            for day, trays in sorted(days.items())
        ]
        said.append(
            f"Trays of one sowing were cut on {plural(len(days), 'different day')} "
            f"({listed(by_day, most=4)}); a later tray has grown longer."
        )
    return said
