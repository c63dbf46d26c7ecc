"""Setting a trial up, and finding one: the question, the arms, the blocks, the layout."""

from __future__ import annotations

import secrets
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, ClassVar

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template, write_version
from logbook.actions.reading import Reading
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.quantities import LAYOUT_NUMBER, REPLICATES, WEEKS
from logbook.growing.room.places import Place, find_place
from logbook.growing.trials import factors
from logbook.growing.trials.factors import FACTORS, MEASURES, ArmDraft
from logbook.growing.trials.layout import MOST_TRAYS, TrialSpot, lay_out
from logbook.growing.trials.replicates import Replicates, detectable_difference, table
from logbook.growing.trials.spread import RoomSpread, room_spread
from logbook.store.reads.templates import StoredTemplate, read_templates, template_of_versions
from logbook.store.reads.trials import read_single_weights, read_trials
from logbook.text import Refused, clean_name, clean_note, fold, listed, nearest

if TYPE_CHECKING:
    from logbook.actions.writing import Act

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
    """What a draft comes to, before it is written. `per_arm` are its trays per arm in all."""

    keys: ClassVar = """
        trial=name thing=factor arms blocks trays_per_arm=per_arm seed=layout_number
        spread_percent=spread.percent spread_rests_on_trays=spread.trays gaps
        gap_seen_percent=seen layout
    """

    name: str
    question: str
    factor: str
    template: CropTemplate
    arms: tuple[ArmPlan, ...]
    measures: tuple[str, ...]
    replicates: int
    shelves: tuple[Place, ...]
    weeks: int
    layout_number: int
    """The number that draws the layout."""
    spread: RoomSpread
    per_arm: int
    layout: tuple[TrialSpot, ...]
    """Spot after spot."""

    @property
    def blocks(self) -> str:
        """What the blocks are: shelf, week or ''."""
        return "shelf" if self.shelves else "week" if self.weeks > 1 else ""

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
        try:
            return (
                table(spread, DIFFERENCES, arms=arms),
                detectable_difference(spread, self.per_arm, arms=arms),
                "",
            )
        except Refused as refused:
            return (), None, str(refused)


@dataclass(frozen=True, slots=True)
class SetUp:
    """A trial as it was written."""

    trial_id: int
    entry_id: int
    plan: TrialPlan


def preview_trial(book: Book, draft: TrialDraft) -> TrialPlan:
    """What a draft comes to, nothing written; raise Refused as set_up() would."""
    with book.reading() as reading:
        return _planned(reading, draft)[0]


def set_up(book: Book, draft: TrialDraft) -> SetUp:
    """Write a trial: its question, arms and blocks, the number that draws its layout, and what counts.

    Arms whose value a template has a field for get a variant of the crop's template, kept among
    the retired ones, so that the round asks of their trays what their arm wants.

    Raises:
        Refused: fewer than two arms, a name in use, a value or place that cannot be.
    """
    from logbook.actions.trials.deciding import write_weights
    from logbook.store.tables import TrialArmRow, TrialBlockRow, TrialRow

    with book.writing() as act:
        plan, found = _planned(act.reading, draft)
        note = f"{plan.name}: {plan.question}" if plan.question else plan.name
        entry = act.entry("trial", [], note=note)
        row = TrialRow(
            entry_id=entry,
            name=plan.name,
            name_key=fold(plan.name),
            question=plan.question,
            thing=plan.factor,
            version_id=found.version_id,
            measures=" ".join(plan.measures),
            repeats=plan.replicates,
            blocks=plan.blocks,
            weeks=plan.weeks,
            seed=plan.layout_number,
        )
        act.session.add(row)
        act.session.flush()
        assert row.id is not None  # noqa: S101 - flushed
        for position, arm in enumerate(plan.arms):
            act.session.add(
                TrialArmRow(
                    trial_id=row.id,
                    position=position,
                    name=arm.name,
                    setting=arm.setting,
                    colour=arm.colour,
                    version_id=_variant(act, plan, arm),
                    place_id=arm.place.id if arm.place else None,
                )
            )
        act.session.add_all(
            TrialBlockRow(trial_id=row.id, position=position, place_id=place.id)
            for position, place in enumerate(plan.shelves)
        )
        if draft.weights:
            write_weights(act, row.id, plan.name, draft.weights)
        return SetUp(row.id, entry, plan)


def _variant(act: Act, plan: TrialPlan, arm: ArmPlan) -> int | None:
    """Write the template that an arm's trays are sown from, where it is not the crop's own."""
    from sqlmodel import select

    from logbook.store.tables import TemplateRow

    if plan.factor == "density" or arm.template == plan.template:
        return None
    name = clean_name(f"{plan.template.name}, {arm.name}"[:60].strip() + f" ({plan.name})"[:20])
    known = {fold(each.template.name): each for each in read_templates(act.reading)}
    if fold(name) in known and not known[fold(name)].retired:
        raise Refused(
            f'There is a crop template "{name}" already; give the trial or its arm another name.'
        )
    version, _ = write_version(
        act.session,
        replace(arm.template, name=name),
        by=act.by,
        now=act.now,
        why=f'for the arm "{arm.name}" of the trial "{plan.name}"',
    )
    row = act.session.exec(select(TemplateRow).where(TemplateRow.name_key == fold(name))).one()
    row.retired = True
    act.session.add(row)
    return version


def _planned(reading: Reading, draft: TrialDraft) -> tuple[TrialPlan, StoredTemplate]:
    name = clean_name(draft.name, "trial's name")
    if fold(name) in {fold(trial.name) for trial in read_trials(reading)}:
        raise Refused(f'There is a trial "{name}" already; give another name.', about="name")
    found = find_template(draft.crop, read_templates(reading))
    factor = _factor(draft.factor)
    texts = factors.arms_from(draft.arms)
    shelves = _shelves(reading, draft.shelves)
    _check_counts(draft, len(texts), len(shelves))
    arms = _arms(reading, factor, texts, found.template)
    if shelves and any(arm.place for arm in arms):
        raise Refused(
            "Where each arm is a shelf of its own, shelves cannot be blocks too; sow it in several "
            "weeks instead."
        )
    drawn = secrets.randbelow(LAYOUT_NUMBER.most) + 1
    layout_number = drawn if draft.layout_number is None else draft.layout_number
    LAYOUT_NUMBER.checked(layout_number, "layout_number")
    blocks = [shelf.path for shelf in shelves]
    plan = TrialPlan(
        name=name,
        question=clean_note(draft.question),
        factor=factor,
        template=found.template,
        arms=arms,
        measures=_measures(draft.measures),
        replicates=draft.replicates,
        shelves=shelves,
        weeks=draft.weeks,
        layout_number=layout_number,
        spread=spread_of_room(reading, found.version_id),
        per_arm=draft.replicates * max(1, len(shelves)) * max(1, draft.weeks),
        layout=layout_of([arm.name for arm in arms], layout_number, blocks, draft.replicates),
    )
    return plan, found


def _factor(text: str) -> str:
    factor = clean_name(text, "thing that differs")
    known = {fold(name): name for name in FACTORS}
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
    shelves = tuple(find_place(path, places) for path in paths)
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


def _check_counts(draft: TrialDraft, arms: int, shelves: int) -> None:
    REPLICATES.checked(draft.replicates, "replicates")
    WEEKS.checked(draft.weeks, "weeks")
    if arms * draft.replicates * max(1, shelves) > MOST_TRAYS:
        raise Refused(f"A trial may have up to {MOST_TRAYS:,} trays.", about="replicates")


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


def _arm_place(factor: str, arm: ArmDraft, places: Sequence[Place]) -> Place | None:
    """The shelf that an arm of a trial of lamps is."""
    if factor != "lamps":
        return None
    try:
        place = find_place(arm.setting or arm.name, places)
    except Refused:
        if arm.setting:
            raise
        return None
    if place.kind == "shelf":
        return place
    if arm.setting:
        raise Refused(f"{place.path} is a {place.kind}; an arm of a lamp trial is one shelf.")
    return None


def spread_of_room(reading: Reading, version_id: int, leave: Collection[int] = ()) -> RoomSpread:
    """The spread from tray to tray of a crop in this room, else the template's.

    `leave` are ids of trays that must not count, such as those of the trial itself.
    """
    template_id = template_of_versions(reading, [version_id])[version_id]
    singly = read_single_weights(reading, template_id, leave)
    return room_spread(singly, reading.version(version_id).spread_percent)


def layout_of(
    arms: Sequence[str], layout_number: int, shelves: Sequence[str], replicates: int, run: int = 1
) -> tuple[TrialSpot, ...]:
    """Draw where each tray stands; each run (week) after the first is drawn anew."""
    week = "" if run == 1 else f", week {run}"
    blocks = [f"{path}{week}" for path in shelves] or [week.removeprefix(", ")]
    return lay_out(arms, layout_number, blocks, replicates)
