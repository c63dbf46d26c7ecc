"""A trial's result in plain words, never stronger than its evidence and never a bare chance."""

from collections.abc import Callable, Sequence

from logbook.growing.measures import number_words
from logbook.growing.trials.arms import Arm
from logbook.growing.trials.blocks import Blocked
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.one_way import Anova
from logbook.growing.trials.pairs import ALL_PAIRS_UP_TO, Pair
from logbook.growing.trials.verdict import Verdict
from logbook.text import listed, plural

_COUNTS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]


def joined(*sentences: str) -> str:
    """Join the sentences that are not empty."""
    return " ".join(filter(None, sentences))


def grams_of(value: float) -> str:
    """Write grams, whole for trays, more digits for small or near values: "149 g", "0.865 g"."""
    size = abs(value)
    digits = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 1 else 3
    return f"{_unsigned_0(number_words(value, digits))} g"


def percent_of(value: float) -> str:
    """Write a share in %: "25 %", "8.4 %"."""
    return f"{_unsigned_0(number_words(value, 0 if abs(value) >= 10 else 1))} %"


def _unsigned_0(text: str) -> str:
    return "0" if text == "-0" else text


def count_word(number: int) -> str:
    """Write a small number as a word, a larger one in digits."""
    return _COUNTS[number] if 0 <= number < len(_COUNTS) else f"{number:,}"


def chance_words(chance: float) -> str:
    """Write a chance for reading: "about one time in eight", "about three times in ten"."""
    if chance < 0.001:
        return "less than one time in a thousand"
    if chance <= 0.22:
        times = 1 / chance
        step = 1 if times < 20 else 10 if times < 200 else 100
        return f"about one time in {count_word(round(times / step) * step)}"
    tenths = round(chance * 10)
    return "nearly every time" if tenths >= 10 else f"about {count_word(tenths)} times in ten"


def p_words(p: float) -> str:
    """Write p beside the words that say it."""
    return "p < 0.001" if p < 0.001 else f"p {p:.3f}" if p < 0.1 else f"p {p:.2f}"


def left_out(arms: Sequence[Arm]) -> str:
    """Say which trays do not count, and why; '' when all do."""
    said = []
    for arm in arms:
        if arm.died:
            said.append(
                f"{plural(arm.died, 'tray')} of {arm.name} weighed 0 g (died?) and "
                f"{'is' if arm.died == 1 else 'are'} kept out of its mean"
            )
        if arm.missing:
            said.append(f"{plural(arm.missing, 'tray')} of {arm.name} without a weight")
        said.extend(
            f"{plural(arm.left_out.count(reason), 'tray')} of {arm.name} left out ({reason})"
            for reason in dict.fromkeys(arm.left_out)
        )
        if not arm.n:
            said.append(f"{arm.name} has no tray to compare")
    if not said:
        return ""
    died = any(arm.died for arm in arms)
    worse = " An arm that loses trays does worse than its mean says." if died else ""
    return f"Not counted: {listed(said, most=6)}.{worse}"


def set_aside(every: Sequence[Arm], used: Sequence[Arm]) -> str:
    """Say which arms have too few trays to be held against the others; '' for none."""
    aside = [arm for arm in every if arm.n and arm not in used]
    if aside:
        few = [f"{arm.name} has {plural(arm.n, 'tray')}" for arm in aside[:4]]
        more = len(aside) - len(few)
        rest = f" and {plural(more, 'further arm')} no more" if more else ""
        it = "it" if len(aside) == 1 else "them"
        return f"{', '.join(few)}{rest}: too few beside the others, so nothing is said about {it}."
    lone = [arm.name for arm in used if arm.n == 1]
    if not lone:
        return ""
    has, its = ("has one tray", "its") if len(lone) == 1 else ("have one tray each", "their")
    return f"{listed(lone, most=4)} {has}; {its} own spread cannot be seen, so nothing is claimed."


def one_tray(
    arms: Sequence[Arm], spread_percent: float | None, chance: float | None, settle: int | None
) -> str:
    """Say what one tray per arm can show, which is never a best arm."""
    means = {arm.name: arm.mean or 0.0 for arm in arms}
    heavy, light = max(means, key=lambda arm: means[arm]), min(means, key=lambda arm: means[arm])
    opening = "One tray per arm: no test can be made of this."
    gap = means[heavy] - means[light]
    if not gap:
        every = "Both" if len(arms) == 2 else f"All {count_word(len(arms))}"
        return f"{opening} {every} trays weigh the same."
    share = percent_of(100 * gap / (means[light] or 1.0))
    opening += f" {heavy} cut {grams_of(gap)} ({share}) more than {light}."
    if spread_percent is None or chance is None:
        return f"{opening} Whether that means anything depends on how far trays of one arm usually differ; give that spread to see."
    meaning = "So this shows no difference between the arms."
    if chance < SIGNIFICANCE:
        meaning = (
            "Chance seldom does that, so it is worth repeating; one tray still proves nothing."
        )
    often = (
        f"Where trays grown alike spread by {number_words(spread_percent)} %, the best and worst "
        "of "
        f"{count_word(len(arms))} identical ones differ this much {chance_words(chance)}."
    )
    return joined(opening, often, meaning, settle_words(settle))


def settle_words(settle: int | None) -> str:
    """Say how many trays per arm would settle a gap; '' when that is not known."""
    if settle is None:
        return ""
    trays = plural(settle, "tray")
    return f"If the difference is real, about {trays} per arm would show it eight times in ten."


def compared(
    arms: Sequence[Arm], pairs: Sequence[Pair], told: Sequence[Pair], anova: Anova | None,
    settle: int | None, *, shown: bool,
) -> str:  # fmt: skip
    """Say what several trays per arm show."""
    if anova is None:
        return _nothing_varies(arms)
    widest = f"The largest difference: {difference_words(pairs[0])}."
    p, chance = p_words(anova.p), chance_words(anova.p)
    if not shown:
        return joined(
            f"No difference between the arms is shown. {widest}",
            f"Identical trays would differ this much {chance} ({p}).",
            "That does not show that they are equal.",
            settle_words(settle),
        )
    found = f"The arms differ ({p}): identical trays would differ this much {chance}."
    if not told:
        return f"{found} Yet no two of them can be told apart. {widest}"
    first = ". ".join(difference_words(pair) for pair in told[:4])
    more = f"So do {plural(len(told) - 4, 'further pair')}." if len(told) > 4 else ""
    fades = "A first winner's lead usually shrinks when it is repeated."
    return joined(found, f"{first}.", more, _standing(arms, pairs, told), fades)


def difference_words(
    pair: Pair,
    written: Callable[[float], str] = grams_of,
    verb: str = "cut",
    than: str = "more than",
) -> str:
    """Say between what bounds one arm is over another, and then what was measured here.

    `written` writes a number of the unit in which the pair's difference is kept: g, unless said.
    """
    share = "" if pair.gap_percent is None else f" ({percent_of(pair.gap_percent)})"
    low, high, here = written(abs(pair.low)), written(pair.high), written(pair.gap_grams)
    if pair.low < 0:
        reach = f"anywhere from {low} less to {high} more"
        return (
            f"{pair.a} {verb} {here}{share} {than} {pair.b}, and the true difference is probably "
            f"(95 %) {reach}"
        )
    reach = f"{low} to {high}" if low != high else f"about {low}"
    return f"{pair.a} {verb} {reach} {than} {pair.b} (95 % sure), {here}{share} here"


def _standing(arms: Sequence[Arm], pairs: Sequence[Pair], told: Sequence[Pair]) -> str:
    """Say whether one arm stands above all others, and which cannot be told apart."""
    best = pairs[0].a
    beaten = {pair.b for pair in told if pair.a == best}
    rivals = [arm.name for arm in arms if arm.name != best and arm.name not in beaten]
    only = f"With more than {ALL_PAIRS_UP_TO} arms only the heaviest is compared with the others."
    capped = only if len(arms) > ALL_PAIRS_UP_TO else ""
    above = f"{best} cut more than every other arm." if len(arms) > 2 else ""
    apart = f"{best} cut most, but cannot be told apart from {listed(rivals, most=4)}."
    return joined(apart if rivals else above, capped)


def _nothing_varies(arms: Sequence[Arm]) -> str:
    weights = {weight for arm in arms for weight in arm.weights}
    if len(weights) == 1:
        said = "All trays weigh the same, so there is nothing to compare"
        return f"{said}: check the entries and the scale."
    said = "Nothing is left that varies within the arms, so chance cannot be judged"
    return f"{said}: check the entries and the scale's steps."


def held_back(result: Verdict) -> str:
    """Say why a small p is not taken for a difference; '' when there is nothing to say."""
    if result.shown or result.anova is None or result.too_hopeful is None:
        return ""
    return (
        f"Welch's formula alone gives {p_words(result.too_hopeful)}, which is too hopeful with "
        "so few "
        "trays; the chance said here is that of identical trays."
    )


def in_blocks(blocked: Blocked) -> str:
    """Say how the blocks were used, which cells are empty, and what is taken for granted."""
    paired = len(blocked.names) == 2 and blocked.trays == 2 * len(blocked.blocks)
    how = "as pairs of trays in" if paired else "within"
    said = f"Arms were compared {how} {plural(len(blocked.blocks), 'block')}."
    if blocked.block_p is not None and blocked.block_p < SIGNIFICANCE:
        said += " The blocks differ from one another, so comparing within them helped."
    elif blocked.block_p is not None:
        said += " The blocks themselves hardly differ."
    if blocked.missing_cells:
        cells = listed([f"{arm} in {block}" for arm, block in blocked.missing_cells], most=4)
        said += (
            f" Without a weight: {cells}; the differences are worked out from the blocks that "
            "are there, "
            "and nothing was made up in their place."
        )
    if blocked.of_cells:
        said += (
            " The arms' means in each block are compared, so it applies to more than these blocks."
        )
    elif blocked.uneven is None or blocked.uneven >= SIGNIFICANCE:
        said += " This takes the difference between arms to be about the same in every block."
    if blocked.uneven is None or blocked.uneven >= SIGNIFICANCE:
        return said
    return (
        f"{said} The differences are not the same from block to block, more so than chance "
        "usually makes "
        "them: look at each block before relying on the mean."
    )
