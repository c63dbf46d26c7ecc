"""The facts of a trial's trays that likeness compares: one line each, so that more are easy."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from logbook.growing.crops.template_fields import Compared, Told
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import hours_words
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.trials.confounders import Confounders, Difference, Fact, Value, confounders
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.record import TrayRecord
from logbook.text import fold, listed, plural

HOUR = timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked(Fact):
    """A fact to compare, got from a tray's record.

    `part_of` are the things that it is itself a part of: a trial of such a thing does not list it,
    nor one of what it is called.
    `after` says that it is known only once a tray is off the rack, `lit` only once in the light.
    """

    get: Callable[[TrayRecord], Value | None]
    part_of: tuple[str, ...] = ()
    after: bool = False
    lit: bool = False

    def is_of(self, factor: str) -> bool:
        """Whether it is what a trial of this factor compares, also where that is in own words."""
        return _plain(factor) in (self.name, *self.part_of)

    def read(self, records: Sequence[TrayRecord]) -> Fact:
        """The fact with its values."""
        return replace(self, values={record.name: self.get(record) for record in records})


def _plain(factor: str) -> str:
    return fold(factor).removeprefix("the ")


def _soak_hours(record: TrayRecord) -> float | None:
    soaked, sown = record.state.soaked_at, record.state.sown_at
    if soaked is None:
        return None if record.template.soak_seconds else 0.0
    return None if sown is None else (sown - soaked) / HOUR


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

    part_of = (compared.of, *(field.factor or ())[:1])
    return Asked(
        compared.name, tolerance=compared.tolerance, joint=compared.joint, get=get, part_of=part_of
    )


def _waterings(record: TrayRecord) -> float | None:
    """Count the waterings; a tray that wants some and has none written down is not recorded."""
    wants = any(stage.water_per_day for stage in record.template.stages)
    return None if wants and not record.said.waterings else float(record.said.waterings)


def _water_ml(record: TrayRecord) -> float | None:
    return None if _waterings(record) is None else record.said.water_ml


LIGHT = ("light", "ppfd", "dli")
HOURS = ("lamp hours", "hours of light")
WATERING = ("water", "watering", "waterings")
"""What a grower may call the same, where it is what is compared."""
ASKED = (
    Asked("seed lot", joint="from", get=lambda record: record.lot),
    Asked("seed sown", unit="g per tray", tolerance=0.5, get=lambda record: record.seed_grams,
          part_of=("density", "seed density", "seed")),
    Asked("soak", unit="h", tolerance=0.5, get=_soak_hours, part_of=("soak",)),
    *(_of_template(each, each.compared) for each in CropTemplate.fields if each.compared),
    Asked("waterings", tolerance=0.5, many=True, get=_waterings, part_of=WATERING),
    Asked("water given", unit="ml per tray in all", tolerance=20, get=_water_ml, part_of=WATERING),
    Asked("shelf", joint="on", get=lambda record: record.place, part_of=("place", "rack")),
    Asked("place along the shelf", joint="in", get=lambda record: record.on_shelf,
          part_of=("slot", "place")),
    Asked("lamps", many=True, get=lambda record: record.around.lamps, part_of=("lamps",), lit=True),
    Asked("lit hours", unit="h per day", tolerance=0.25, many=True, lit=True,
          get=lambda record: record.around.lit_hours, part_of=("light", *HOURS)),
    Asked("power cuts", unit="h", tolerance=0.1, many=True,
          get=lambda record: record.around.power_off),
    Asked("mean PPFD", unit="µmol/m²/s", tolerance=5, get=lambda record: record.around.ppfd, lit=True,
          part_of=LIGHT),
    Asked("DLI", unit="mol/m²/d", tolerance=0.5, get=lambda record: record.around.dli,
          lit=True, part_of=(*LIGHT, "lit hours", *HOURS)),
    Asked("temperature", unit="°C", tolerance=0.5, get=lambda record: record.around.celsius),
    Asked("humidity", unit="%", tolerance=3, get=lambda record: record.around.humidity),
    Asked("sown by", joint="by", get=lambda record: record.said.sown_by),
    Asked("days from sowing to the cut", unit="d", tolerance=0.1, many=True,
          get=lambda record: record.days, after=True),
    Asked("cut by", joint="by", get=lambda record: record.said.cut_by, after=True),
)  # fmt: skip
"""Everything that is compared of each tray, besides its time of sowing and its stages."""

RED_STEMS = "watering (deep red stems)"
"""How a look that saw deep red stems stands among what differs."""


def trial_confounders(records: Sequence[TrayRecord], factor: str, zone: ZoneInfo) -> Confounders:
    """Compare everything that was recorded between the arms of a trial.

    Trays that do not count are left aside. What is known only of cut trays is compared once all
    are off the rack.
    """
    counted = [record for record in records if not record.left_out]
    arms = {record.name: record.arm for record in counted}
    found = confounders(arms, facts_of(counted, factor), factor_words(factor), name_words)
    red = _red_stems(counted, arms)
    extra = [*([red.words] if red else []), *_unmeasured(counted), *_cut_days(counted, zone)]
    if counted and not all(record.ended for record in counted):
        extra.append("Trays are still growing: days to the cut are compared when all are cut.")
    unlike = red is not None and len(set(red.by_arm.values())) > 1
    water = _plain(factor) in WATERING
    differences = (*([red] if red and unlike and not water else []), *found.differences)
    return replace(found, differences=differences, words=(*found.words, *extra))


def facts_of(records: Sequence[TrayRecord], factor: str) -> list[Fact]:
    """The facts of a trial's trays, without those that are the one thing itself."""
    over = all(record.ended for record in records)
    in_light = any(record.around.light_days for record in records)
    facts = [
        asked.read(records)
        for asked in ASKED
        if not asked.is_of(factor) and (over or not asked.after) and (in_light or not asked.lit)
    ]
    facts.append(_sowing(records))
    return facts if factor == "stages" else facts + _stages(records)


def _sowing(records: Sequence[TrayRecord]) -> Fact:
    first: dict[int, datetime] = {}
    for record in records:
        if sown := record.state.sown_at:
            first[record.run] = min(sown, first.get(record.run, sown))
    hours = {
        each.name: (sown - first[each.run]) / HOUR if (sown := each.state.sown_at) else None
        for each in records
    }
    return Fact("time of sowing", hours, "h after the first", 0.5)


def _stages(records: Sequence[TrayRecord]) -> list[Fact]:
    """The hours in each stage that every tray has left; the last one follows from the cut."""
    names = dict.fromkeys(stage.name for each in records for stage in each.template.stages[:-1])
    return [
        Fact(f'time in "{name}"', spent, "h", 2.0)
        for name in names
        if None not in (spent := {r.name: r.stage_hours.get(name) for r in records}).values()
    ]


def _red_stems(records: Sequence[TrayRecord], arms: Mapping[int, str]) -> Difference | None:
    """Put watering on the list where a look saw deep red stems (common practice, no source)."""
    red = [record for record in records if any(map(_deep_red, record.said.stems))]
    if not red:
        return None
    trays, seen = Counter(arms.values()), Counter(record.arm for record in red)
    by_arm = {arm: _share(seen[arm], trays[arm]) for arm in trays}
    said = (
        f"Watering may differ: a look saw deep red stems on {_numbered(red)} ({_arms(red)}), "
        "usually a sign that a tray went short of water, unless the crop is red anyway; it could "
        "explain part of it."
    )
    return Difference(RED_STEMS, by_arm, said)


def _unmeasured(records: Sequence[TrayRecord]) -> list[str]:
    """Say how many lit hours no survey covers, apart for trays whose other light is known or not."""
    groups: dict[str, list[TrayRecord]] = {}
    for record in records:
        if record.around.unmeasured_hours >= 1 / 60:
            rest = (
                "too little was measured to say mean PPFD and DLI"
                if record.around.ppfd is None
                else "mean PPFD and DLI are those of the time that was measured"
            )
            groups.setdefault(rest, []).append(record)
    return [
        f"Light was not measured for {_reach(each.around.unmeasured_hours for each in trays)} of "
        f"{_reach(each.around.lit_in_all for each in trays)} under lit lamps "
        f"({_numbered(trays)}): {rest}."
        for rest, trays in groups.items()
    ]


def _reach(hours: Iterable[float]) -> str:
    """Write hours of several trays: "16 h", "15 h 30 min to 16 h"."""
    ordered = sorted(hours)
    return " to ".join(dict.fromkeys(map(hours_words, (ordered[0], ordered[-1]))))


def _numbered(records: Sequence[TrayRecord]) -> str:
    numbers = numbers_words(record.name for record in records)
    return f"{'tray' if len(records) == 1 else 'trays'} {numbers}"


def _arms(records: Sequence[TrayRecord]) -> str:
    return listed(list(dict.fromkeys(record.arm for record in records)), most=4)


def _share(seen: int, trays: int) -> str:
    some = f"{seen} of {plural(trays, 'tray')}" if seen else "none seen"
    return "all trays" if seen == trays else some


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
    return [
        f"Trays of one sowing were cut on {plural(len(days), 'different day')} "
        f"({listed([f'{day_words(day)} {_arms(trays)}' for day, trays in sorted(days.items())], 4)}"
        "); a later tray has grown longer."
        for days in runs.values()
        if len(days) > 1
    ]
