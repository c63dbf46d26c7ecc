"""What a grower may make of a trial: one plain paragraph, only as strong as the evidence."""

from logbook.growing.measures import number_words
from logbook.growing.trials.confounders import Confounders
from logbook.growing.trials.criteria import Priorities
from logbook.growing.trials.facts import RED_STEMS
from logbook.growing.trials.judging import Judgement
from logbook.growing.trials.pairs import Pair
from logbook.growing.trials.words import grams_of, joined, percent_of
from logbook.text import listed, plural


def advice(
    judged: Judgement, alike: Confounders, factor: str, weighed: Priorities | None = None,
    runs: int = 1,
) -> str:  # fmt: skip
    """Say what may be made of a trial of a factor (in words), sown in so many weeks.

    `alike` is what else differed, `weighed` the grower's own weights laid over it.
    """
    return joined(
        _grams(judged, runs),
        _doubts(alike, factor, shown=judged.shown),
        _short_of_water(alike, shown=judged.shown),
        _by_weights(weighed),
    )


def _grams(judged: Judgement, runs: int) -> str:
    if judged.design == "one tray":
        return joined(
            "One tray per arm shows nothing yet, so it gives no reason to change what you do.",
            _settle(judged, "sow the same arms again"),
        )
    if not judged.shown:
        return joined(
            "The weights give no reason to change what you do: a difference may be there, but "
            "these "
            "trays do not show it. Choose by work, looks or cost, or repeat it.",
            _settle(judged, "repeat it"),
        )
    if not judged.told_apart:
        return (
            "Something differs between the arms, but which from which is not shown; repeat it with "
            "fewer arms or more trays before changing anything."
        )
    once = "It was sown once: a second week would show whether it holds."
    weeks = f"It is based on {plural(runs, 'week')} taken together."
    return joined(_winner(judged), weeks if runs > 1 else once)


def _settle(judged: Judgement, what: str) -> str:
    trays = judged.trays_per_arm_to_settle
    if trays is None:
        return ""
    if trays > 200:
        return "A difference of this size would take more trays than a room has: leave it."
    return (
        f"To settle a difference of this size, {what} with about {plural(trays, 'tray')} per arm."
    )


def _winner(judged: Judgement) -> str:
    best = judged.pairs[0].a
    beaten = [pair for pair in judged.told_apart if pair.a == best]
    below = {best, *(pair.b for pair in beaten)}
    rivals = [arm.name for arm in judged.arms if arm.n and arm.name not in below]
    if not rivals:
        return f"{best} cut more than {_others(beaten)}; that is more than chance."
    if not beaten:
        told = judged.told_apart[0]
        chance = f"That {told.a} cut more than {told.b} is more than chance"
        return f"{chance}, but no arm is clearly the best."
    return (
        f"{best} cut more than {_others(beaten)}; that is more than chance. Between {best} and "
        f"{listed(rivals, most=4)} nothing is shown: take whichever is less work or cheaper."
    )


def _others(pairs: list[Pair]) -> str:
    least = min(pairs, key=lambda pair: pair.low)
    names = listed([pair.b for pair in pairs], most=4)
    share = "" if least.gap_percent is None else f", {percent_of(least.gap_percent)},"
    here = f"; {grams_of(least.gap_grams)}{share} here" if len(pairs) == 1 else ""
    each = "" if len(pairs) == 1 else "each "
    return f"{names} ({each}probably by {grams_of(least.low)} or more{here})"


def _doubts(alike: Confounders, factor: str, *, shown: bool) -> str:
    bound = [name for group in alike.together if factor in group for name in group]
    bound = [name for name in bound if name != factor]
    names = [one.fact for one in alike.differences if one.fact != RED_STEMS]
    if not names:
        return ""
    if bound:
        return (
            f"But {listed(bound, most=4)} changed together with {factor} every time, so this trial "
            f"cannot say which of them did it: make {'it' if len(bound) == 1 else 'them'} alike "
            "and "
            "repeat."
        )
    what = "could explain part of it" if shown else "may have hidden something"
    return f"Besides {factor}, the arms differed in {listed(names, most=4)}, which {what}."


def _short_of_water(alike: Confounders, *, shown: bool) -> str:
    """Say where stems were deep red in some arms more than in others: it speaks against a gap."""
    red = next((one for one in alike.differences if one.fact == RED_STEMS), None)
    if red is None:
        return ""
    seen = listed([f"{arm}: {trays}" for arm, trays in red.by_arm.items()], most=4)
    meaning = "so water may have hidden something."
    if shown:
        repeat = "repeat it with all arms watered alike before you change anything"
        meaning = f"so the difference may come from the watering: {repeat}."
    return f"A look saw deep red stems ({seen}), usually a sign of too little water, {meaning}"


def _by_weights(weighed: Priorities | None) -> str:
    if weighed is None or not weighed.places:
        return ""
    if len(weighed.level) > 1:
        return "By what you said counts, no arm is ahead."
    first, points = weighed.places[0].arm, number_words(weighed.places[0].points)
    return f"By what you said counts, {first} comes first ({points} of 10 points)."
