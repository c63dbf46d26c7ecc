"""What counts in a trial, deciding on it, and taking an arm into the crop template."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import inf
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.actions.crops.templates import write_version
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trials.finding import find_arm, find_trial
from logbook.actions.trials.judging import judge_trial
from logbook.actions.writing import Act
from logbook.growing.cautions import words_of
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.measures import number_words
from logbook.growing.quantities import PRIORITY
from logbook.growing.trials.factors import adopted
from logbook.growing.trials.kept import Trial
from logbook.growing.trials.view import TrialView
from logbook.store.reads.templates import read_templates, template_of_versions
from logbook.text import Refused, clean_note, clean_reason, fold, listed, nearest

CRITERIA = ("yield", "looks", "taste", "crunch", "cost")


def set_weights(book: Book, name: str, weights: Mapping[str, float]) -> Done:
    """Say how much each criterion counts in a trial, best before the first tray is cut."""
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        words = write_weights(act, trial.id, trial.name, weights)
        return done_of(act, f"what counts in {trial.name}: {words}", ())


def write_weights(act: Act, trial_id: int, name: str, weights: Mapping[str, float]) -> str:
    """Write criteria with their weights as part of an act, or raise Refused; say them in words."""
    checked = {}
    for one, weight in weights.items():
        key = fold(one)
        if key not in CRITERIA:
            raise Refused(
                f'"{one[:40]}" isn\'t a criterion of a trial; use {listed(CRITERIA, joint="or")}.'
                f"{nearest(one, list(CRITERIA))}"
            )
        checked[key] = PRIORITY.named(f"priority of {key}").checked(weight)
    if not any(checked.values()):
        raise Refused("Give at least one criterion a priority above 0, like yield=3.")
    words = listed([f"{one} {number_words(weight, 2)}" for one, weight in checked.items()])
    entry = act.entry("weights", [], note=f"{name}: {words}")
    rows = ({"name": one, "weight": weight} for one, weight in checked.items())
    act.put("trial_criterion", entry, rows, trial_id=trial_id)
    return words


def decide(book: Book, name: str, decided: str, try_next: str = "", arm: str = "") -> Done:
    """Write what was decided on a trial and what to try next; raise Refused for nothing said."""
    words, after = clean_note(decided), clean_note(try_next)
    if not words:
        raise Refused("What was decided? A sentence is enough.")
    early = _early(judge_trial(book, name))
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        arm_id = find_arm(trial, arm).id if arm.strip() else None
        _write_decision(act, trial, words, after, arm_id=arm_id)
        return done_of(act, f"decided on {trial.name}: {words}", (), early)


def _early(view: TrialView) -> tuple[str, ...]:
    """Say where a decision comes before the verdict."""
    done, planned = view.course.done, view.course.planned
    said = f"This is before the planned end ({done} of {planned} trays): there is no verdict yet."
    return (said,) if view.course.early else ()


def _write_decision(act: Act, trial: Trial, decided: str, try_next: str, **of: Any) -> None:
    """Write a decision, `of` an arm (`arm_id`) and the version that it made (`version_id`)."""
    note = f"{trial.name}: {decided}" + (f" Next: {try_next}" if try_next else "")
    said = {"trial_id": trial.id, "decided": decided, "try_next": try_next, **of}
    act.put("trial_decision", act.entry("decide", [], note=clean_note(note)), **said)


@dataclass(frozen=True, slots=True)
class Adopted:
    """An arm taken into a crop template: the new version, the words, and what the trial shows."""

    keys: ClassVar = """
        act=act_id entry=act_id words template=template.name version=template.version
        notices
    """

    template: CropTemplate
    words: str
    act_id: int
    notices: tuple[str, ...] = ()
    """What is worth knowing, a sentence each."""


def adopt(book: Book, name: str, arm: str, why: str, try_next: str = "") -> Adopted:
    """Make a new version of the crop template from an arm, with the reason, and decide so.

    The newest version of the template is taken, with the arm's value of the one thing put in; what
    no field is for goes into its notes. The decision keeps which version it made. Raises Refused
    for no reason, an arm without a value, and a template that is retired or so already.
    """
    clean_reason(why)
    view = judge_trial(book, name)
    chosen = find_arm(view.trial, arm).name
    gaps = view.judged.told_apart if view.judged else ()
    notices = _early(view)
    if not notices and not any(fold(pair.a) == fold(chosen) for pair in gaps):
        notices = (
            f"The weights do not show that {chosen} cuts more than another arm; it is your call.",
        )
    with book.writing() as act:
        done = adopt_within(act, name, arm, why, try_next)[1]
        return replace(done, notices=(*notices, *done.notices))


def adopt_within(
    act: Act, name: str, arm: str, why: str, try_next: str = ""
) -> tuple[int, Adopted]:
    """As adopt(), but as part of an act and unjudged; the version's id, and what was done."""
    reason, after = clean_reason(why), clean_note(try_next)
    trial = find_trial(name, act.reading)
    chosen = find_arm(trial, arm)
    template_id = template_of_versions(act.reading, [trial.version_id])[trial.version_id]
    found = next(each for each in read_templates(act.reading) if each.id == template_id)
    base = found.template
    if found.retired:
        raise Refused(f'The template "{base.name}" is retired; bring it back into use first.')
    fresh = adopted(base, trial.factor, chosen.name, chosen.setting)
    if fresh == base:
        raise Refused(
            f"{base.name} has that already (version {base.version}); decide without adopting."
        )
    said = f'trial "{trial.name}", arm "{chosen.name}": {reason}'[:200]
    version, written = write_version(act.writer, fresh, by=act.by, now=act.now, why=said)
    decided = f"adopted {chosen.name} as {written.name} version {written.version}: {reason}"
    _write_decision(act, trial, clean_note(decided), after, arm_id=chosen.id, version_id=version)
    act.settings(f"template {written.name}, version {written.version}")
    assert act.act_id is not None  # noqa: S101 - something was written
    words = (
        f"{written.name}: version {written.version} is written, from {chosen.name} of the trial "
        f"{trial.name}"
    )
    denser = (fresh.seed_grams or 0) / fresh.tray_mm2 > (base.seed_grams or inf) / base.tray_mm2
    return version, Adopted(written, words, act.act_id, words_of("denser stands") if denser else ())
