"""Setting a trial up, and finding one: the question, the arms, the blocks, the layout."""

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template, write_version
from logbook.actions.reading import Reading
from logbook.actions.trials.deciding import write_weights
from logbook.actions.trials.judging import spread_of_room
from logbook.actions.writing import Act
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.quantities import LAYOUT_NUMBER, REPLICATES, WEEKS
from logbook.growing.room.places import Place, Places
from logbook.growing.trials import factors
from logbook.growing.trials.arms import RoomSpread
from logbook.growing.trials.factors import FACTORS, MEASURES, ArmDraft
from logbook.growing.trials.kept import planned_per_arm
from logbook.growing.trials.layout import MOST_TRAYS, TrialSpot, lay_out
from logbook.growing.trials.replicates import Replicates, detectable_difference, table
from logbook.store.reads.templates import StoredTemplate, read_templates
from logbook.store.reads.trials import read_trials
from logbook.text import Refused, clean_name, clean_note, fold, listed, nearest

DIFFERENCES = (5.0, 10.0, 15.0, 20.0, 30.0)
"""Gaps of the small table at a set-up, in % of the mean tray."""


@dataclass(frozen=True, slots=True)
class TrialDraft:
    """What the grower asks for.

    `arms` are written like "thick=34 g"; `replicates` trays per arm in each block; `shelves` are
    blocks, `weeks` how many weeks it is to be sown. `layout_number` draws the layout; None: the book
    draws one. `weights` say beforehand what counts: criterion → weight.
    """

    name: str
    crop: str
    factor: str
    arms: tuple[str, ...]
    question: str = ""
    measures: tuple[str, ...] = ("grams",)
    replicates: int = 1
    shelves: tuple[str, ...] = ()
    weeks: int = 0
    layout_number: int | None = None
    weights: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ArmPlan:
    """An arm as it will be kept: its value of the one thing, its mark, the shelf that it is."""

    keys: ClassVar = "arm=name setting"

    name: str
    setting: str
    colour: str
    place: Place | None
    template: CropTemplate


@dataclass(frozen=True)
class TrialPlan:
    """What a draft makes; `asked` is the draft as it was checked. `entry_id`: once written."""

    keys: ClassVar = """
        trial=asked.name thing=asked.factor arms blocks trays_per_arm=per_arm seed=layout_number
        spread_percent=spread.percent spread_rests_on_trays=spread.trays gaps
        gap_seen_percent=seen layout
    """

    asked: TrialDraft
    crop: StoredTemplate
    arms: tuple[ArmPlan, ...]
    shelves: tuple[Place, ...]
    layout_number: int
    """The number that draws the layout."""
    spread: RoomSpread
    entry_id: int | None = None

    @property
    def template(self) -> CropTemplate:
        """The crop's own template."""
        return self.crop.template

    @property
    def blocks(self) -> str:
        """What the blocks are: shelf, week or ''."""
        return "shelf" if self.shelves else "week" if self.asked.weeks > 1 else ""

    @property
    def per_arm(self) -> int:
        """Trays per arm in all blocks and weeks."""
        return planned_per_arm(self.asked.replicates, len(self.shelves), self.asked.weeks)

    @property
    def layout(self) -> tuple[TrialSpot, ...]:
        """Spot after spot."""
        arms, blocks = [arm.name for arm in self.arms], [shelf.path for shelf in self.shelves]
        return layout_of(arms, self.layout_number, blocks, self.asked.replicates)

    @property
    def gaps(self) -> tuple[Replicates, ...]:
        """The trays per arm that show a gap."""
        return self._reckoned[0]

    @property
    def seen(self) -> float | None:
        """The gap in % that the trial as planned shows eight times in ten; None: it can show none."""
        return self._reckoned[1]

    @property
    def no_gaps(self) -> str:
        """Why the gaps cannot be reckoned, '' where they can."""
        return self._reckoned[2]

    @cached_property
    def _reckoned(self) -> tuple[tuple[Replicates, ...], float | None, str]:
        """Reckoned when asked for; a machine without scipy sets trials up all the same."""
        spread, arms = self.spread.percent, len(self.arms)
        cell = self.asked.replicates if self.blocks else 0
        try:
            return (
                table(spread, DIFFERENCES, arms=arms, cell=cell),
                detectable_difference(spread, self.per_arm, arms=arms, cell=cell),
                "",
            )
        except Refused as refused:
            return (), None, str(refused)


def preview_trial(book: Book, draft: TrialDraft) -> TrialPlan:
    """What a draft comes to, nothing written; raise Refused as set_up() would."""
    with book.reading() as reading:
        return _planned(reading, draft)


def set_up(book: Book, draft: TrialDraft) -> TrialPlan:
    """Write a trial: its question, arms, blocks, layout number, what counts; or raise Refused.

    Arms whose value a template has a field for get a variant of the crop's template, kept among
    the retired ones, so that the round asks of their trays what their arm wants.
    """
    with book.writing() as act:
        plan = _planned(act.reading, draft)
        asked = plan.asked
        note = f"{asked.name}: {asked.question}" if asked.question else asked.name
        entry = act.entry("trial", [], note=note)
        trial = act.add(
            "trial", entry_id=entry, name=asked.name, name_key=fold(asked.name), question=asked.question,
            thing=asked.factor, version_id=plan.crop.version_id,
            measures=" ".join(asked.measures), repeats=asked.replicates, blocks=plan.blocks,
            weeks=asked.weeks, seed=plan.layout_number,
        )  # fmt: skip
        for position, arm in enumerate(plan.arms):
            act.add(
                "trial_arm", trial_id=trial, position=position, name=arm.name,
                setting=arm.setting, colour=arm.colour, version_id=_variant(act, plan, arm),
                place_id=arm.place.id if arm.place else None,
            )  # fmt: skip
        for position, place in enumerate(plan.shelves):
            act.add("trial_block", trial_id=trial, position=position, place_id=place.id)
        if asked.weights:
            write_weights(act, trial, asked.name, asked.weights)
        return replace(plan, entry_id=entry)


def _variant(act: Act, plan: TrialPlan, arm: ArmPlan) -> int | None:
    """Write the template that an arm's trays are sown from, where it is not the crop's own."""
    trial = plan.asked.name
    if plan.asked.factor == "density" or arm.template == plan.template:
        return None
    name = clean_name(f"{plan.template.name}, {arm.name}"[:60].strip() + f" ({trial})"[:20])
    known = {fold(each.template.name): each for each in read_templates(act.reading)}
    if fold(name) in known and not known[fold(name)].retired:
        raise Refused(
            f'There is a crop template "{name}" already; choose another name for the trial or '
            "its arm."
        )
    own, why = replace(arm.template, name=name), f'for the arm "{arm.name}" of the trial "{trial}"'
    return write_version(act.writer, own, by=act.by, now=act.now, why=why, retired=True)[0]


def _planned(reading: Reading, draft: TrialDraft) -> TrialPlan:
    name = clean_name(draft.name, "trial's name")
    if fold(name) in {fold(trial.name) for trial in read_trials(reading)}:
        raise Refused(f'There is already a trial "{name}"; choose another name.', about="name")
    crop = find_template(draft.crop, read_templates(reading))
    factor = _factor(draft.factor)
    texts = factors.arms_from(draft.arms)
    shelves = _shelves(reading, draft.shelves)
    REPLICATES.checked(draft.replicates, "replicates")
    WEEKS.checked(draft.weeks, "weeks")
    if len(texts) * draft.replicates * max(1, len(shelves)) > MOST_TRAYS:
        raise Refused(f"A trial may have up to {MOST_TRAYS:,} trays.", about="replicates")
    arms = _arms(reading, factor, texts, crop.template)
    if shelves and any(arm.place for arm in arms):
        raise Refused(
            "Where each arm is a shelf of its own, shelves cannot be blocks too; sow it in several "
            "weeks instead."
        )
    drawn = secrets.randbelow(LAYOUT_NUMBER.most) + 1
    number = drawn if draft.layout_number is None else draft.layout_number
    LAYOUT_NUMBER.checked(number, "layout_number")
    question, measures = clean_note(draft.question), _measures(draft.measures)
    asked = replace(draft, name=name, question=question, factor=factor, measures=measures)
    spread = spread_of_room(reading, crop.version_id)
    return TrialPlan(asked, crop, arms, shelves, number, spread)


SEED_WORDS = ("seed", "seeds", "seed weight", "seed grams", "seed per tray", "grams of seed")
"""What growers call the seed density; of another lot or variety they say that."""


def _factor(text: str) -> str:
    factor = clean_name(text, "factor")
    known = {fold(name): name for name in FACTORS} | dict.fromkeys(SEED_WORDS, "density")
    known |= {fold(words.removeprefix("the ")): name for name, words in FACTORS.items()}
    return known.get(fold(factor).removeprefix("the "), factor)


def _measures(given: Sequence[str]) -> tuple[str, ...]:
    for word in given:
        if fold(word) not in MEASURES:
            raise Refused(
                f'"{word[:40]}" is not measured in a trial; use {listed(list(MEASURES))}.'
                f"{nearest(word, list(MEASURES))}",
                about="measures",
            )
    return tuple(dict.fromkeys(("grams", *(fold(word) for word in given))))


def _shelves(reading: Reading, paths: Sequence[str]) -> tuple[Place, ...]:
    places = reading.places
    shelves = tuple(places.find(path) for path in paths)
    for place in shelves:
        if place.kind != "shelf":
            raise Refused(f"{place.path} is a {place.kind}; a block is one shelf.", about="shelves")
    if len({place.id for place in shelves}) < len(shelves):
        raise Refused("A shelf is named twice; each block is a shelf of its own.", about="shelves")
    if len(shelves) == 1:
        raise Refused(
            f"One shelf ({shelves[0].path}) makes no blocks; name two or more, or none.",
            about="shelves",
        )
    return shelves


def _arms(
    reading: Reading, factor: str, texts: Sequence[ArmDraft], template: CropTemplate
) -> tuple[ArmPlan, ...]:
    arms = []
    for position, arm in enumerate(texts):
        setting = factors.setting_of(factor, arm, template, reading.units)
        place = _arm_place(factor, arm, reading.places)
        own = factors.with_setting(template, factor, setting)
        arms.append(ArmPlan(arm.name, setting, factors.mark_of(position), place, own))
    settings = [arm.setting for arm in arms if arm.setting]
    if factors.changes_template(factor) and len(set(settings)) < len(settings):
        raise Refused(f"Two arms have the same value ({settings[0]}); nothing would differ.")
    shelves = [arm.place.id for arm in arms if arm.place]
    if len(set(shelves)) < len(shelves):
        raise Refused("Two arms are the same shelf; nothing would differ.")
    return tuple(arms)


def _arm_place(factor: str, arm: ArmDraft, places: Places) -> Place | None:
    """The shelf that an arm of a trial of lamps is."""
    if factor != "lamps":
        return None
    try:
        place = places.find(arm.setting or arm.name)
    except Refused:
        if arm.setting:
            raise
        return None
    if place.kind == "shelf":
        return place
    if arm.setting:
        raise Refused(f"{place.path} is a {place.kind}; an arm of a lamp trial is one shelf.")
    return None


def layout_of(
    arms: Sequence[str], layout_number: int, shelves: Sequence[str], replicates: int, run: int = 1
) -> tuple[TrialSpot, ...]:
    """Draw where each tray stands; each run (week) after the first is drawn anew."""
    week = "" if run == 1 else f", week {run}"
    blocks = [f"{path}{week}" for path in shelves] or [week.removeprefix(", ")]
    return lay_out(arms, layout_number, blocks, replicates)
