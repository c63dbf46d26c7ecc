"""A stage of a crop template as lines of a form: its name, and below it what it gets.

A whole stage may be typed at its name ("weighted: 4d, weight, dark, mist 1, look 1"); then it has no
other lines.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from logbook.growing.crops.stage_line import stage_lines
from logbook.growing.crops.stage_reading import parse_stage, read_watering
from logbook.growing.crops.template_fields import Told, made
from logbook.growing.crops.templates import MOST_STAGES, Stage
from logbook.text import clean_name, listed
from logbook.ui.widgets.form_lines import Field

STAGES = tuple(f"stage-{place}" for place in range(1, MOST_STAGES + 1))
ABOUT = {each.attribute: each for each in Stage.fields}
HINTS = {
    "seconds": "like 4d or 60h; empty: until the cut",
    "water": "mist, top or bottom; times a day",
    "looks_per_day": "times a day; 0 for none",
}
PARTS = ("seconds", "cover", "light", "water", "looks_per_day")


def stage_fields(stages: Sequence[Stage], typed: Mapping[str, str]) -> list[Field]:
    """List the lines of stages and of one more; `typed` has what was changed in them."""
    fields: list[Field] = []
    starts = dict(zip(STAGES, map(stage_lines, stages), strict=False))
    there = [name for name in STAGES if typed.get(name, "").strip() or name in starts]
    last = STAGES.index(there[-1]) if there else -1
    for place, name in enumerate(STAGES):
        start = starts.get(name, {})
        named = typed.get(name, start.get("name", "")).strip()
        begun = bool(named) and not _is_whole(named, start)
        hint = "empty removes the stage" if name in starts else "one more: its name"
        fields.append(
            Field(name, name.replace("-", " "), hint, start.get("name", ""),
                  _reader(start), shown=place <= last + 1)
        )  # fmt: skip
        fields += [_part(name, part, start.get(part, ""), shown=begun) for part in PARTS]
    return fields


def stage_from(values: Mapping[str, Any], name: str) -> Stage | None:
    """Make a stage of what its lines read; None where it has no name."""
    named = values.get(name)
    if named is None or isinstance(named, Stage):
        return named
    given = {part: values.get(f"{name}-{part}") for part in PARTS}
    watering = given.pop("water") or {}
    return made(Stage, {"name": named, **given, **watering})


def _is_whole(text: str, start: Mapping[str, str]) -> bool:
    """Whether a whole stage is typed at its name; a name may have a colon of its own."""
    return ":" in text and text != start.get("name")


def _reader(start: Mapping[str, str]) -> Callable[[str], Stage | str | None]:
    def read(text: str) -> Stage | str | None:
        if not text.strip():
            return None
        return parse_stage(text) if _is_whole(text, start) else clean_name(text, "stage name")

    return read


def _part(name: str, part: str, start: str, *, shown: bool) -> Field:
    told: Told = ABOUT[part]
    words = [] if part == "water" else list(told.value.typed.values())
    by_word = {word: value for value, word in told.value.typed.items()}

    def read(text: str) -> Any:
        if part == "water":
            return read_watering(text)
        return by_word[text] if words else told.read(text, "metric")

    return Field(
        f"{name}-{part}", told.what, HINTS.get(part) or listed(words, joint="or"), start, read,
        offers=words, pick=bool(words), shown=shown, optional=part != "light",
        needed="Is the stage dark or lit?", part=True,
    )  # fmt: skip
