"""The one thing that differs between the arms of a trial, and what it does to a crop template."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from logbook.growing.crops.templates import CropTemplate, Stage, checked
from logbook.growing.measures import Units, amount, number_words, seconds, span_words
from logbook.text import Refused, clean_name, fold, listed, nearest

FIELDS = {each.factor[0]: each for each in CropTemplate.fields if each.factor}
"""Fields of a crop template that may be what differs."""

FACTORS = {
    "lamps": "the lamps",
    **{factor: each.factor[1] for factor, each in FIELDS.items() if each.factor},
    "stages": "the stage lengths",
    "water": "the watering",
}
"""Things that the book knows, and how a sentence calls them; any other word is taken as it is."""

MEASURES = ("grams", "height", "days", "looks", "taste")
MOST_ARMS = 500
MARKS = ("white", "yellow", "blue", "pink", "green", "orange", "brown", "black")
"""Colour marks in the order in which arms get them; past these an arm's mark is its number."""


@dataclass(frozen=True, slots=True)
class ArmDraft:
    """An arm as the grower writes it: its name, and its value of the one thing where it has one."""

    name: str
    setting: str = ""


def arms_from(texts: Sequence[str]) -> tuple[ArmDraft, ...]:
    """Read arms like "thick=34 g" or "34 g" (the name may be the value), or raise Refused."""
    arms = []
    for name, mark, setting in (text.partition("=") for text in texts):
        if mark and not setting.strip():
            raise Refused(f'The arm "{name[:40]}" has nothing after =; write it like thick=34 g.')
        arms.append(ArmDraft(clean_name(name, "arm's name"), setting.strip()))
    if len(arms) < 2:
        raise Refused("A trial needs two arms or more, say with and without.")
    if len(arms) > MOST_ARMS:
        raise Refused(f"{len(arms):,} arms? A trial takes up to {MOST_ARMS}.")
    seen: set[str] = set()
    for arm in arms:
        if fold(arm.name) in seen:
            raise Refused(f'Two arms are called "{arm.name[:40]}"; give each its own name.')
        seen.add(fold(arm.name))
    return tuple(arms)


def factor_words(factor: str) -> str:
    """Name the thing for a sentence: "the seed density"; a free word stays as it is."""
    return FACTORS.get(factor, factor)


def changes_template(factor: str) -> bool:
    """Whether a crop template has a field for the thing."""
    return factor in FIELDS or factor in ("stages", "water")


def setting_of(factor: str, arm: ArmDraft, template: CropTemplate, units: Units) -> str:
    """An arm's value in the form in which it is kept, or Refused; '' when it has none.

    Without a value of its own the arm's name is tried; one that begins like a number must be one.
    """
    if not changes_template(factor):
        return clean_name(arm.setting, "arm's value") if arm.setting else ""
    try:
        setting = _canonical(factor, arm.setting or arm.name, template, units)
        with_setting(template, factor, setting)
    except Refused:
        if arm.setting or re.match(r"\W*(\d|(nan|inf)\b)", arm.name, re.IGNORECASE):
            raise
        return ""
    return setting


def _canonical(factor: str, text: str, template: CropTemplate, units: Units) -> str:
    if factor in FIELDS:
        return FIELDS[factor].value.plain(FIELDS[factor].read(text, units))
    if factor == "water":
        times = amount(re.sub(r"\s*(x|×|times)?\s*(a|per)?\s*day$", "", text), "waterings a day")
        if times.unit:
            raise Refused(f'"{text[:40]}" is not a watering; write how often a day, like 2.')
        return number_words(times.value, 2)
    return ", ".join(
        f"{stage.name} {span_words(length)}" for stage, length in _lengths(text, template)
    )


def _lengths(text: str, template: CropTemplate) -> list[tuple[Stage, int]]:
    found = []
    stages = {fold(stage.name): stage for stage in template.stages[:-1]}
    for part in text.split(","):
        words = re.fullmatch(r"\s*(.*?)\s+([\d.½¼¾].*)", part)
        stage = stages.get(fold(words[1])) if words else None
        if words is None or stage is None:
            names = [each.name for each in stages.values()]
            known = listed(names, joint="or") or "none"
            hint = nearest(words[1], names) if words else ""
            raise Refused(
                f'"{part.strip()[:40]}" is not a stage with a length; write it like "blackout 2d". '
                f"Stages of {template.name} before its last: {known}.{hint}"
            )
        found.append((stage, seconds(words[2], f'length of "{stage.name}"')))
    return found


def with_setting(template: CropTemplate, factor: str, setting: str) -> CropTemplate:
    """The template as an arm's value has it, or Refused; as it was where no field is for it."""
    if not setting or not changes_template(factor):
        return template
    if factor in FIELDS:
        field = FIELDS[factor]
        return checked(replace(template, **{field.attribute: field.read(setting, "metric")}))
    stages = template.stages
    if factor == "stages":
        lengths = {stage.name: length for stage, length in _lengths(setting, template)}
        changed = [replace(each, seconds=lengths.get(each.name, each.seconds)) for each in stages]
    elif any(stage.water_per_day for stage in stages):
        times = float(setting)
        changed = [replace(each, water_per_day=each.water_per_day and times) for each in stages]
    else:
        raise Refused(f"{template.name} has no stage that is watered; change the template first.")
    return checked(replace(template, stages=tuple(changed)))


def adopted(template: CropTemplate, factor: str, arm: str, setting: str) -> CropTemplate:
    """The template with an arm taken into it, or Refused; what has no field goes into the notes."""
    if changes_template(factor):
        if not setting:
            raise Refused(
                f'The arm "{arm}" has no value of {factor_words(factor)}, so the template cannot '
                "take it over; change the template by hand, and decide without adopting."
            )
        return with_setting(template, factor, setting)
    value = f"{arm} ({setting})" if setting and fold(setting) != fold(arm) else arm
    line = f"{factor_words(factor).removeprefix('the ').capitalize()}: {value}."
    notes = "\n".join(part for part in (template.notes, line) if part)
    return checked(replace(template, notes=notes))


def mark_of(position: int) -> str:
    """The colour mark of an arm by its place from 0."""
    return MARKS[position] if position < len(MARKS) else f"mark {position + 1}"
