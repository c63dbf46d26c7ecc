"""A trial in plain lines, the same for the command line and the screen."""

from collections.abc import Sequence

from logbook.actions.trials.allocation import listed_numbers
from logbook.actions.trials.setting_up import TrialPlan
from logbook.actions.trials.sowing import SownTrial
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import Units, number_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trials.factors import changes_template, factor_words
from logbook.growing.trials.tasting import triangle
from logbook.growing.trials.view import TrialView
from logbook.growing.trials.words import grams_of
from logbook.text import listed, plural
from logbook.ways import Way


def set_up_words(plan: TrialPlan) -> list[str]:
    """Say what a set-up comes to: arms, trays, the gaps that can be seen, the layout."""
    asked, each = plan.asked, len(plan.arms) * plan.asked.replicates
    arms = listed([_arm(arm.name, arm.setting, arm.colour) for arm in plan.arms], most=8)
    lines = [
        titled(asked.name, asked.question),
        f"{plan.template.label()}; what differs is {factor_words(asked.factor)}: {arms}",
        *_bare(plan),
        f"measured: {listed(asked.measures)}; {_count(plan)}",
        *(
            f"{shelf.path} has {plural(shelf.slots, 'slot')} for {plural(each, 'tray')}: too few"
            for shelf in plan.shelves
            if shelf.slots < each
        ),
        f"spread: {plan.spread.words}",
    ]
    if plan.no_gaps:
        return [*lines, f"What differences it can show isn't known: {plan.no_gaps}"]
    for row in plan.gaps:
        trays = "too many" if row.trays_per_arm is None else f"{row.trays_per_arm:,}"
        lines.append(
            f"  a difference of {number_words(row.difference):>2} % takes {trays} trays per arm"
        )
    if plan.seen is None:
        said = (
            "With one tray per arm it can show nothing and has no planned end: how many trays "
            "per arm, "
            f"or weeks, will it have? {Way.TRIAL_END} sets that later."
        )
    else:
        said = f"As set up, {promise_words(len(plan.arms), plan.per_arm, plan.seen)}."
        if plan.blocks and plan.per_arm == 2 * plan.asked.replicates:
            said += " Another block (a shelf, a week) would help more than more trays in these two."
    return [*lines, said]


def promise_words(arms: int, per_arm: int, seen: float) -> str:
    """Say which difference in % so many trays per arm show; it begins small and ends without a stop."""
    others = "the others" if arms > 2 else "the other"
    return (
        f"with {plural(per_arm, 'tray')} per arm, it shows one arm that truly differs from "
        f"{others} by "
        f"{number_words(seen, 0)} % eight times in ten, once all are weighed"
    )


def _bare(plan: TrialPlan) -> list[str]:
    """Name the arms of which no value was read, where there should be one."""
    factor, bare = plan.asked.factor, [arm.name for arm in plan.arms if not arm.setting]
    if not bare or not changes_template(factor):
        return []
    then = "the template's is used" if factor != "density" else "add their trays by hand"
    return [f"no value of {factor_words(factor)} for {listed(bare, most=8)}: {then}"]


def titled(name: str, question: str) -> str:
    """A trial's name with its question, where it has one."""
    return f"{name}: {question}" if question else name


def _arm(name: str, setting: str, colour: str) -> str:
    value = f" = {setting}" if setting and setting != name else ""
    return f"{name}{value} ({colour})"


def _count(plan: TrialPlan) -> str:
    weeks, shelves = plan.asked.weeks, len(plan.shelves)
    blocks = [plural(shelves, "shelf", "shelves")] if shelves else []
    blocks += [plural(weeks, "week")] if weeks > 1 else []
    times = f" in each of {' and '.join(blocks)}" if blocks else ""
    trays, every = plural(plan.asked.replicates, "tray"), plan.per_arm * len(plan.arms)
    return f"{trays} per arm{times}, {plural(every, 'tray')} in all"


def layout_words(plan: TrialPlan) -> list[str]:
    """Say in which order the arms stand, block by block."""
    blocks: dict[str, list[str]] = {}
    for spot in plan.layout:
        blocks.setdefault(spot.block, []).append(spot.arm)
    lines = [f"layout drawn at random (layout number {plan.layout_number}):"]
    return lines + [
        f"  {block + ': ' if block else ''}{', '.join(arms)}" for block, arms in blocks.items()
    ]


def sown_words(sown: SownTrial) -> list[str]:
    """Say what a sowing of a trial came to: each arm's trays, and the order in which they stand."""
    done = ("to be " if sown.act_id is None else "") + ("planned" if sown.planned else "sown")
    head = f"{sown.trial}, week {sown.run}: {plural(len(sown.spots), 'tray')} {done}"
    lines = [head] + [
        f"  {arm.arm} ({arm.colour}): {numbers_words(arm.numbers)}"
        f"{'' if arm.batch_id is None else f', batch {arm.batch_id}'}"
        for arm in sown.arms
    ]
    return lines + [f"  {line}" for line in stand_words(sown)]


def stand_words(sown: SownTrial) -> list[str]:
    """Say where the trays of a sowing stand, block by block and shelf by shelf, in their order."""
    groups: dict[tuple[str, str], list[int]] = {}
    for (number, spot), place in zip(sown.spots, sown.places, strict=True):
        groups.setdefault((spot.block, place), []).append(number)
    lines = []
    for (block, place), numbers in groups.items():
        now = "" if not place or place == block else f"now on {place}" if block else f"on {place}"
        where = ", ".join(part for part in (block, now, "in this order") if part)
        lines.append(f"{where}: {listed_numbers(numbers)}")
    return lines


def judged_words(view: TrialView, units: Units = "metric") -> list[tuple[str, Sequence[str]]]:
    """A trial's result as headed parts, each of paragraphs; parts with nothing are left out."""
    judged, weighing = view.judged, view.weighing
    growing = f"{plural(view.waiting, 'tray')} still growing: this is not the last word."
    first = [*filter(None, (view.strange, view.course.words, growing if view.waiting else ""))]
    said = [judged.words] if judged else [*first[: bool(view.strange)], view.why_not]
    alike = listed(view.confounders.alike, most=30)
    likeness = [words[:1].upper() + words[1:] for words in view.confounders.words]
    likeness += [f"Alike: {alike}."] if alike else []
    counts = weighing.weights.items() if weighing else ()
    counted = listed([f"{one} {number_words(each, 2)}" for one, each in counts])
    parts: tuple[tuple[str, Sequence[str], object], ...] = (
        ("In short", [*first, view.advice], judged),
        ("What the weights say", said, True),
        (
            "What else differed",
            likeness if view.records else ["There is no tray to compare yet."],
            True,
        ),
        ("Also measured", _measured(view, units), True),
        ("Money", money_words(view), view.costs.words and judged),
        ("Tasting", tasting_words(view), True),
        ("Criteria", [weighing.words if weighing else ""], weighing and judged),
        ("What counts", [f"{counted}."], weighing and not judged),
        ("Decided", decision_words(view), True),
    )
    return [(head, texts) for head, texts, wanted in parts if wanted and texts]


def money_words(view: TrialView) -> list[str]:
    """Say what 100 g cost in each arm, and the widest gap in grams beside it."""
    lines = [view.costs.words]
    if view.costs.per_100_g and (unset := view.money.unset_words):
        lines.append(unset)
    if view.judged is not None and len(view.costs.per_100_g) > 1:
        means = sorted((arm.mean, arm.name) for arm in view.arms if arm.mean)
        (least, light), (most, heavy) = means[0], means[-1]
        chance = "" if view.judged.shown else ", which may be chance"
        gap = grams_of(most - least)
        lines.append(f"In grams, {heavy} cut {gap} more than {light}{chance}.")
    return lines


def _measured(view: TrialView, units: Units) -> list[str]:
    """Say what else was measured; each is judged by itself, and that is said where it matters."""
    lines = [each.words(units) for each in view.measured]
    if len(lines) > 1:
        lines.append(
            "Each is judged on its own: look at enough of them and one will differ by chance."
        )
    scored = {each.aspect for each in view.tasting.aspects} if view.tasting else set()
    wanted = view.trial.measures.split()
    bare = [one for one in wanted if one in ("looks", "taste") and one not in scored]
    if bare and view.judged:
        lines.append(f"{listed(bare).capitalize()}: no taster has scored them yet.")
    return lines


def tasting_words(view: TrialView) -> list[str]:
    """Say what the newest tasting and the triangle tests show, and keep the tasters' words."""
    lines = []
    if view.tasting is not None:
        who = view.tasting.tasters
        if not who:
            lines.append("A tasting is laid out; nobody's answers are in yet.")
        lines += [f"{each.aspect.capitalize()}: {each.words}" for each in view.tasting.aspects]
        lines += [f"{taster} on {arm}: {words}" for arm, taster, words in view.tasting.notes]
    arm = view.trial.arm
    lines += [
        f"{arm(each.first_arm_id).name} and {arm(each.second_arm_id).name}: "
        f"{triangle(each.tasters, each.found).words}"
        for each in view.triangles
    ]
    return lines


def decision_words(view: TrialView) -> list[str]:
    """Say what was decided, when, by whom, and what to try next."""
    lines = []
    for each in view.decisions:
        day = day_words(day_of(each.at, view.zone))
        after = f" Next: {_ended(each.try_next)}" if each.try_next else ""
        lines.append(f"{day}, {each.by}: {_ended(each.decided)}{after}")
    return lines


def _ended(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."
