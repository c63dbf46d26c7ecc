"""A tasting of a trial's arms: its sheet of codes, and what the answers to it show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, ClassVar

from logbook.growing.keys import LEFT_OUT
from logbook.growing.trials.kept import Answer, Tasting, Trial
from logbook.growing.trials.layout import shuffled
from logbook.growing.trials.tasting import Ranks, blind_codes, ranks
from logbook.text import Refused, fold

ASPECTS = ("taste", "crunch", "looks")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A tasting as it is laid out. `codes` is arm → code: not for the tasters' eyes."""

    trial: str
    number: int
    ranks: bool
    codes: Mapping[str, str]
    seed: int

    def order(self, taster: str) -> tuple[str, ...]:
        """The codes in the order in which this taster gets them."""
        return shuffled(tuple(self.codes.values()), self.seed, f"order {fold(taster)}")


@dataclass(frozen=True, slots=True)
class TastingSheet:
    """A tasting: the code of each arm, or the order for one person."""

    keys: ClassVar = "trial=sheet.trial tasting=sheet.number ranks=sheet.ranks codes taster order"

    sheet: Sheet
    taster: Annotated[str, LEFT_OUT] = ""
    order: Annotated[tuple[str, ...], LEFT_OUT] = ()

    @property
    def codes(self) -> Annotated[Mapping[str, str], LEFT_OUT]:
        """Arm → code, which a taster is not told."""
        return {} if self.order else self.sheet.codes


@dataclass(frozen=True, slots=True)
class AspectResult:
    """What the tasters' numbers for one aspect show; `ranks` None where they cannot be compared."""

    aspect: str
    ranks: Ranks | None
    words: str


@dataclass(frozen=True, slots=True)
class TastingResult:
    """A tasting with its answers: the results by aspect, and (arm, taster, words) as written."""

    sheet: Sheet
    tasters: tuple[str, ...]
    aspects: tuple[AspectResult, ...]
    notes: tuple[tuple[str, str, str], ...]


def sheet_of(trial: Trial, tasting: Tasting, number: int) -> Sheet:
    """The sheet of a tasting; `number` counts the trial's tastings from 1."""
    names = [arm.name for arm in trial.arms]
    return Sheet(trial.name, number, tasting.ranks, blind_codes(names, tasting.seed), tasting.seed)


def tasting_result(
    trial: Trial, tasting: Tasting, number: int, answers: Sequence[Answer]
) -> TastingResult:
    """What the answers of a tasting show; of a taster's several the newest count."""
    newest = {(fold(each.taster), each.arm_id, each.aspect): each for each in answers}.values()
    arms = {arm.id: arm.name for arm in trial.arms}
    given: dict[str, dict[str, dict[str, float]]] = {aspect: {} for aspect in ASPECTS}
    for each in newest:
        if each.score is not None:
            given[each.aspect].setdefault(each.taster, {})[arms[each.arm_id]] = each.score
    return TastingResult(
        sheet_of(trial, tasting, number),
        tuple(dict.fromkeys(each.taster for each in newest)),
        tuple(_result(name, rows, ranked=tasting.ranks) for name, rows in given.items() if rows),
        tuple((arms[each.arm_id], each.taster, each.words) for each in newest if each.words),
    )


def _result(aspect: str, given: Mapping[str, Mapping[str, float]], *, ranked: bool) -> AspectResult:
    try:
        found = ranks(given, more_is_better=not ranked)
    except Refused as refused:
        return AspectResult(aspect, None, str(refused))
    return AspectResult(aspect, found, found.words)
