"""Crop templates: how one crop is grown here, as ordered stages and a cut window."""

from __future__ import annotations

from dataclasses import field, replace
from datetime import timedelta
from typing import Any, Literal, get_args

from logbook.growing.crops import template_values as kinds
from logbook.growing.crops.allergens import doubt, known
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.template_fields import Compared, Part, Record, leaves, record, told
from logbook.growing.crops.unsafe import refuse_unsafe
from logbook.growing.days import DAY
from logbook.growing.measures import Units, grams_words, number_words
from logbook.growing.quantities import EXPECTED, KEEPING, SEED, SOAK_PH, SPREAD
from logbook.text import Refused

Cover = Literal["none", "lid", "weight"]
Light = Literal["dark", "lit"]
Water = Literal["none", "mist", "top", "bottom"]

COVERS: tuple[Cover, ...] = get_args(Cover)
LIGHTS: tuple[Light, ...] = get_args(Light)
WATERS: tuple[Water, ...] = get_args(Water)

TRAY_MM = (508.0, 254.0)
BY_AREA = ("seed_grams", "expected_grams", "regrow_grams")
"""What goes with the area of a tray."""
USUAL_KEEPING = 7.0
"""Days that a crop keeps in the cold store where its template does not say (common practice, no source)."""
MOST_STAGES = 12
LONGEST_LIFE = 365 * DAY
_LID_WORDS = {"none": "open", "lid": "lid on", "weight": "weight on"}
_TARGETS = 'a table: [targets] with keys like light = "8-12"'
_BEST = 'How long after the last stage began is it best to cut? Write "best" like 60h.'
_NO_CROP = "The crop is empty; give at least one letter."
_NO_SOAK = ("none", "no", "no soak", "dry")


@record()
class Stage(Record):
    """A stretch of a tray's life with one cover, one light state and one watering habit.

    `seconds` is elapsed time; None is allowed for the last stage alone, which ends with the cut.
    Times a day may be a fraction: 0.5 is every second day. A label is for several of the kind.
    """

    name: str = told(kinds.TEXT, "stage name")
    seconds: int | None = told(kinds.span(), "length", default=None, key="length",
        meaning="Left out of the last one: until the cut.")  # fmt: skip
    cover: Cover = told(
        kinds.choice(COVERS, {"none": "open", "lid": "lid", "weight": "weight"}, _LID_WORDS), "cover",
        default="none", label="covers")  # fmt: skip
    light: Light = told(kinds.choice(LIGHTS, {"dark": "dark", "lit": "lit"}), "light", default="dark",
        label="light states")  # fmt: skip
    water: Water = told(kinds.choice(WATERS, {each: each for each in WATERS[1:]}, times="water_per_day"),
        "water", default="none", label="ways of watering")  # fmt: skip
    water_per_day: float = told(kinds.times(), "watering", default=0.0)
    looks_per_day: float = told(kinds.times("look"), "looks", default=0.0)

    @classmethod
    def filled(cls, values: dict[str, Any]) -> dict[str, Any]:
        """Water once a day where no number is given."""
        return {"water_per_day": float(values.get("water", "none") != "none"), **values}


@record()
class CutWindow(Record):
    """From, best and by, in seconds after the last stage began."""

    from_seconds: int = told(
        kinds.span(), "cut from", key="from", hint="after the last stage began"
    )
    best_seconds: int = told(kinds.span(), "cut best", key="best", hint="like 60h", missing=_BEST)
    by_seconds: int = told(kinds.span(), "cut by", key="by", hint="like 4d")

    @classmethod
    def filled(cls, values: dict[str, Any]) -> dict[str, Any]:
        """Take a day on either side of the best moment where no end is given."""
        best = values.get("best_seconds")
        if best is None:
            return values
        return {"from_seconds": max(0, best - DAY), "by_seconds": best + DAY, **values}


@record(kw_only=True)
class CropTemplate(Record):
    """One version of a crop template.

    Weights in g, lengths in mm, soak in s; `expected_grams` is cut weight per tray and
    `spread_percent` the standard deviation of what a room's mean may be, as a share of it. `guess` marks the numbers that came
    with the program and that a room's own trays have not replaced. `targets` is what the crop
    wants of light, air and water.
    """

    name: str = told(kinds.TEXT, "name", hint="empty: crop, variety", columns=())
    crop: str = told(kinds.TEXT, "crop", hint="like radish", missing=_NO_CROP)
    variety: str = told(kinds.TEXT, "variety", default="", hint="may stay empty")
    seed_grams: float | None = told(kinds.measured(SEED, grams_words), default=None, typed_key="seed",
        label="seed per tray", hint=("dry, g", "dry, oz"), says="seed: {} dry per tray",
        meaning="Dry seed per tray, g.", factor=("density", "the seed density"))  # fmt: skip
    tray: tuple[float, float] = told(kinds.size(), "tray size", default=TRAY_MM,
        hint=("cm; 10x20 is inches", "length × width, in"), says="tray: {}",
        meaning="Length x width: 508x254mm.", compared=Compared("tray"))  # fmt: skip
    soak_seconds: int = told(kinds.span(7 * DAY, "a week", nothing=_NO_SOAK), "soak", default=0,
        key="soak", hint="like 8h; 0h for none", meaning="0h for none.",
        factor=("soak", "the soak"))  # fmt: skip
    soak_ph: float | None = told(kinds.measured(SOAK_PH), default=None, label="soak water pH",
        hint="may stay empty", compared=Compared("soak pH", 0.1, of="soak"))  # fmt: skip
    mucilage: bool = told(kinds.FLAG, "mucilage", default=False, hint="y: the seed is not soaked",
        meaning="Whether the seed gels when soaked; sow it dry.")  # fmt: skip
    medium: str = told(kinds.TEXT, "medium", default="", hint="like coir",
        factor=("medium", "the medium"), compared=Compared("medium", joint="on"))  # fmt: skip
    stages: tuple[Stage, ...] = told(Part(Stage, "Stage", "a list of [[stages]]", many=True),
        "stages", missing="A template needs at least one stage.", columns=())  # fmt: skip
    cut: CutWindow = told(
        Part(CutWindow, "The cut window", "[cut] with from, best and by", prefix="cut_"),
        "cut window", meaning="From the beginning of the last stage.",
        missing="Give the cut window: [cut] with from, best and by.")  # fmt: skip
    sign_to_cut: str = told(kinds.TEXT, "ready sign", default="", hint="like first true leaves",
        meaning="The sign that says: cut now.")  # fmt: skip
    expected_grams: float | None = told(kinds.measured(EXPECTED, grams_words), default=None,
        typed_key="expected", label="expected per tray", hint=("cut weight, g", "cut weight, oz"),
        meaning="The template's own guess, g per tray.")  # fmt: skip
    regrow_seconds: int | None = told(kinds.span(), "regrowth", default=None, key="regrow",
        label="cut again after", hint="like 10d; empty: not known",
        meaning="From a cut that leaves the tray to grow again to the next best cut.")  # fmt: skip
    regrow_grams: float | None = told(kinds.measured(EXPECTED, grams_words), default=None,
        typed_key="regrow_expected", label="expected again", hint=("regrowth, g", "regrowth, oz"),
        meaning="The template's own guess of a regrowth, g per tray.")  # fmt: skip
    keeping_days: float | None = told(kinds.measured(KEEPING), default=None, label="keeps",
        hint="days in the cold store", says="keeps: {} days in the cold store",
        meaning="Days that it keeps in the cold store once it is cut.")  # fmt: skip
    allergens: str | None = told(kinds.ALLERGENS, default=None, hint="like mustard, celery; or none",
        meaning="Its allergens, or none; left out if nobody has looked.")  # fmt: skip
    spread_percent: float = told(kinds.measured(SPREAD), default=20.0, label="spread ±",
        hint="% of the expected", meaning="How far off the guess may be; sowings, and trays, differ by half of that.")  # fmt: skip
    guess: bool = told(kinds.FLAG, "guess", default=False, label="still a guess", first=True,
        hint="y until your own trays say so",
        meaning="Whether it is a starting guess.")  # fmt: skip
    targets: Targets = told(Part(Targets, "The table of targets", _TARGETS, prefix="want_"),
        "targets", default=Targets(), meaning="What the crop wants: 18 to 24 C, at least 40 % …",
        columns=())  # fmt: skip
    notes: str = told(kinds.NOTE, "notes", default="", hint="your own words")
    version: int = field(default=0, compare=False)

    @classmethod
    def filled(cls, values: dict[str, Any]) -> dict[str, Any]:
        """Call it after its crop, and cut when a last stage with a length ends."""
        crop, variety = values.get("crop", ""), values.get("variety")
        values = {"name": f"{crop}, {variety}" if variety else crop, **values}
        last = (values.get("stages") or (None,))[-1]
        if last is not None and last.seconds is not None and "cut" not in values:
            values["cut"] = CutWindow(**CutWindow.filled({"best_seconds": last.seconds}))
        return values

    def planned_seconds(self) -> int:
        """Add up the elapsed seconds from sowing to the start of the last stage."""
        return sum(stage.seconds or 0 for stage in self.stages[:-1])

    def seed_for(self, grams: float | None) -> float | None:
        """The dry seed of a tray, g: what was sown on it where that was said, else the template's."""
        return self.seed_grams if grams is None else grams

    @property
    def keeps(self) -> timedelta:
        """How long it keeps in the cold store once it is cut."""
        return timedelta(days=USUAL_KEEPING if self.keeping_days is None else self.keeping_days)

    @property
    def allergens_known(self) -> tuple[str, ...] | None:
        """What it says, else what its crop is by its name; None where neither is known."""
        return known(self.allergens, self.crop, self.name)

    @property
    def allergens_doubt(self) -> str:
        """What is to be asked about its allergens; '' where nothing is."""
        return doubt(self.allergens, self.crop, self.name)

    @property
    def tray_mm2(self) -> float:
        """The area of its tray, mm²."""
        return self.tray[0] * self.tray[1]

    def scaled_from(self, source: CropTemplate) -> CropTemplate:
        """With its seed and expected weights scaled by the tray's area, those that `source` has too."""
        share = self.tray_mm2 / source.tray_mm2
        alike = {each: getattr(self, each) for each in BY_AREA}
        scaled = {
            name: round(grams * share, 2)
            for name, grams in alike.items()
            if grams is not None and grams == getattr(source, name)
        }
        return replace(self, **scaled) if share != 1 else self

    def trays_a_slot(self, stage: int, stack: int) -> int:
        """How many of its trays share a slot: two half trays, and as many as are stacked under weight."""
        halves = 2 if 2 * self.tray_mm2 <= 1.02 * TRAY_MM[0] * TRAY_MM[1] else 1
        return halves * (stack if self.stages[stage].cover == "weight" else 1)

    def label(self) -> str:
        """Write crop and variety in one line."""
        return f"{self.crop}, {self.variety}" if self.variety else self.crop


def area_words(template: CropTemplate, before: CropTemplate, units: Units) -> str:
    """Say what seed would be as dense on a tray of another size; '' where nothing is to be said."""
    seed, scaled = template.seed_grams, template.scaled_from(before).seed_grams
    if scaled is None or scaled == seed:
        return ""
    share = number_words(100 * template.tray_mm2 / before.tray_mm2, 0)
    return f"The tray has {share} % of its former area: {grams_words(scaled, units)} of seed would keep the density."


def checked(template: CropTemplate) -> CropTemplate:
    """Return the template, or raise Refused with the first thing that cannot be."""
    refuse_unsafe(template.crop, template.name)
    if not template.stages:
        raise Refused("A template needs at least one stage.")
    if len(template.stages) > MOST_STAGES:
        raise Refused(f"A template takes up to {MOST_STAGES} stages; this one has more.")
    for place, stage in enumerate(template.stages):
        try:
            _check_stage(stage, last=place == len(template.stages) - 1)
        except Refused as refused:
            about = f"stage-{place + 1}/{refused.about}"
            raise Refused(f'Stage "{stage.name}"{refused}', about) from refused
    for leaf in leaves(CropTemplate):
        value = leaf.of(template)
        if value is not None and isinstance(leaf.told.kind, kinds.Value):
            try:
                leaf.told.kind.check(value, leaf.told.what)
            except Refused as refused:
                raise Refused(str(refused), leaf.name) from refused
    if template.mucilage and template.soak_seconds:
        raise Refused(
            "Seed with mucilage gels when soaked. Set the soak to 0h or take the "
            "mucilage mark off.",
            "soak",
        )
    cut = template.cut
    if not 0 <= cut.from_seconds <= cut.best_seconds <= cut.by_seconds:
        raise Refused("The cut window must run from, best, by in this order.", "cut_from")
    if template.planned_seconds() + cut.by_seconds > LONGEST_LIFE:
        raise Refused("From sowing to the end of the cut window is more than a year.", "cut_from")
    return template


def _check_stage(stage: Stage, *, last: bool) -> None:
    if stage.seconds is None and not last:
        raise Refused(" has no length; only the last stage may go without one.", "seconds")
    if stage.seconds is not None and stage.seconds <= 0:
        raise Refused(" needs a length above 0, like 36h or 2.5d.", "seconds")
    for each in Stage.fields:
        value = getattr(stage, each.attribute)
        if value is not None:
            try:
                each.value.check(value, each.what)
            except Refused as refused:
                about = "water" if each.attribute == "water_per_day" else each.attribute
                raise Refused(f": {refused}", about) from refused
    if stage.water == "none" and stage.water_per_day:
        raise Refused(" has waterings but no way of watering: use mist, top or bottom.", "water")
