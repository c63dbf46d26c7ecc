"""A look at a tray: what can be said of it, and what follows from it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Literal, get_args

from logbook.growing.cautions import words_of
from logbook.growing.measures import Units, length_words
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import EMERGED, HEIGHT
from logbook.text import Refused, clean_words, fold

Mould = Literal["none", "spot", "spread"]
MOULDS: tuple[Mould, ...] = get_args(Mould)
LONGEST_WORDS = 200
_WORDS = {
    "mould_where": "place of the mould", "stem_colour": "stem colour",
    "uneven": "line on uneven spots", "sign": "ready sign",
}  # fmt: skip
_MOULD = {"none": "no mould", "spot": "a spot of mould", "spread": "mould spread"}

DO_NOT_SELL = words_of("mould")[0]
MOULD_CAUTION = " ".join(words_of("mould"))


@dataclass(frozen=True, slots=True)
class Look:
    """What was seen. None or '' is "not looked at"; only what is filled is kept.

    Emerged in percent, height in mm. `sign` is the ready sign as the grower named it.
    """

    keys: ClassVar = """
        emerged_percent height_mm mould mould_where wilting seed_leaves_open=cotyledons_open
        true_leaves stem_colour hulls_on uneven ready_sign=sign
    """

    emerged_percent: float | None = None
    height_mm: float | None = None
    mould: str = ""
    mould_where: str = ""
    wilting: bool | None = None
    cotyledons_open: bool | None = None
    true_leaves: bool | None = None
    stem_colour: str = ""
    hulls_on: bool | None = None
    uneven: str = ""
    sign: str = ""

    @property
    def empty(self) -> bool:
        """Whether nothing was filled in."""
        return self == Look()


def checked_look(look: Look) -> Look:
    """The look with its words cleaned; raise Refused for what cannot be."""
    if look.emerged_percent is not None:
        EMERGED.checked(look.emerged_percent)
    if look.height_mm is not None:
        HEIGHT.checked(look.height_mm)
    if look.mould and look.mould not in MOULDS:
        raise Refused(f'Mould "{look.mould[:40]}" is unknown; use none, spot or spread.')
    cleaned: dict[str, Any] = {
        name: clean_words(getattr(look, name), what, LONGEST_WORDS) for name, what in _WORDS.items()
    }
    return replace(look, **cleaned)


def sees_sign(look: Look, sign_to_cut: str) -> bool:
    """Whether a look saw the ready sign: by its name, or as the first true leaves."""
    wanted = fold(sign_to_cut)
    if not wanted:
        return bool(look.sign)
    if look.sign and fold(look.sign) in (wanted, "yes", "seen"):
        return True
    return bool(look.true_leaves) and "true lea" in wanted


def has_mould(look: Look) -> bool:
    """Whether mould was seen."""
    return look.mould in ("spot", "spread")


def look_words(look: Look, units: Units = "metric") -> str:
    """Write a look in one line."""
    parts = []
    if look.emerged_percent is not None:
        parts.append(f"{look.emerged_percent:g} % emerged")
    if look.height_mm is not None:
        parts.append(f"{length_words(look.height_mm, units)} high")
    if look.mould:
        where = f" ({look.mould_where})" if look.mould_where else ""
        parts.append(f"{_MOULD[look.mould]}{where}")
    for value, yes, no in (
        (look.wilting, "wilting", "not wilting"),
        (look.cotyledons_open, "seed leaves open", "seed leaves closed"),
        (look.true_leaves, "first true leaves", "no true leaves yet"),
        (look.hulls_on, "hulls still on", "hulls off"),
    ):
        if value is not None:
            parts.append(yes if value else no)
    own = (("stems", look.stem_colour), ("uneven:", look.uneven), ("ready sign:", look.sign))
    return ", ".join((*parts, *(f"{name} {words}" for name, words in own if words)))


def mouldy_of(numbers: Sequence[int], seen: Look, mouldy: Sequence[int]) -> Sequence[int]:
    """The trays of a look on which its mould was seen; raises Refused where nobody says which."""
    strange = [number for number in mouldy if number not in numbers]
    if not has_mould(seen):
        if mouldy:
            raise Refused("Which mould? Say spot or spread too.", about="mould")
        return ()
    if strange:
        raise Refused(f"This look isn't on {numbers_words(strange)}.", about="mouldy")
    if not mouldy and len(numbers) > 1:
        raise Refused(f"Mould on which of {numbers_words(numbers)}?", about="mouldy")
    return mouldy or numbers
