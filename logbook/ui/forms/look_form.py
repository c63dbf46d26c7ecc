"""The form of a look: a few short lines, each of which may stay empty."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from logbook.growing.measures import Units
from logbook.growing.numbers import numbers_words, parse_numbers
from logbook.growing.quantities import EMERGED, HEIGHT
from logbook.growing.trays.looks import MOULDS, Look, checked_look, mouldy_of
from logbook.text import Refused, clean, clean_note, yes_no
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field, measured

IN_LOOK = {
    "emerged": "emerged_percent", "height": "height_mm", "cotyledons": "cotyledons_open",
    "leaves": "true_leaves", "stem": "stem_colour", "hulls": "hulls_on",
}  # fmt: skip
"""What a look calls what these lines ask."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What the form gives: the look and a free note."""

    look: Look
    note: str
    mouldy: tuple[int, ...] = ()
    """The trays of several on which mould was seen."""


def _flag(label: str) -> Callable[[str], bool | None]:
    return lambda text: yes_no(text, label.capitalize())


def _mould(text: str) -> tuple[str, str]:
    word, _, where = clean(text, lines=False).partition(" ")
    word = word.casefold()
    short = {"n": "none", "no": "none", "s": "spot", "y": "spot", "yes": "spot"}
    word = short.get(word, word)
    if word and word not in MOULDS:
        raise Refused("Mould: write none, spot or spread, and where: spot left corner.")
    return word, where.strip()


def look_fields(sign: str, units: Units) -> tuple[Field, ...]:
    """The lines of a look; `sign` is the crop's ready sign, '' for none."""
    height = "cm, like 4" if units == "metric" else "in, like 1.5"
    seen_sign = (Field("sign", f"sign: {sign}"[:26], "y: cut now", read=_flag("sign")),)
    return (
        *(seen_sign if sign else ()),
        measured("emerged", "emerged %", EMERGED, "0–100"),
        measured("height", "height", HEIGHT, height, units=units),
        Field("mould", "mould", "none, spot, spread + where", read=_mould),
        *(
            Field(name, label, "y or n", read=_flag(label))
            for name, label in (
                ("wilting", "wilting"), ("cotyledons", "seed leaves open"),
                ("leaves", "first true leaves"),
            )
        ),
        Field("stem", "stem colour", "your own words"),
        Field("hulls", "hulls still on", "y or n", read=_flag("hulls still on")),
        Field("uneven", "uneven spots", "where"),
        Field("note", "note", "your own words", read=clean_note),
    )  # fmt: skip


def look_form(asked: str, sign: str, units: Units, numbers: Sequence[int] = ()) -> AskForm[Seen]:
    """Ask what is seen; of several trays also on which there is mould."""

    def make(values: Mapping[str, Any]) -> Seen:
        said = {IN_LOOK.get(name, name): value for name, value in values.items()}
        note, (said["mould"], said["mould_where"]) = said.pop("note"), said["mould"]
        said["sign"] = sign if said.get("sign") else ""
        mouldy, look = said.pop("mouldy", ()), checked_look(Look(**said))
        return Seen(look, note, tuple(mouldy_of(numbers, look, mouldy)) if several else ())

    fields, several = look_fields(sign, units), len(numbers) > 1
    if several:
        which = Field("mouldy", "mould on", f"which of {numbers_words(numbers)}",
                      read=parse_numbers, optional=True, empty=())  # fmt: skip
        after = [field.name for field in fields].index("mould") + 1
        fields = (*fields[:after], which, *fields[after:])
    return AskForm(asked, fields, make, "save, empty: nothing to note")
