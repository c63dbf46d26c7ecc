"""The kinds of values that a crop template holds: how each is read, written, checked and kept."""

import math
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from logbook.growing import measures
from logbook.growing.bands import Band
from logbook.growing.crops.allergens import allergens_read
from logbook.growing.measures import Units, number_words
from logbook.growing.quantities import TRAY_SIDE, Quantity, tray_size
from logbook.text import Refused, clean, clean_name, clean_note, fold, yes_no

Reader = Callable[[str, str, Units], Any]
Writer = Callable[[Any, Units], str]
_BETWEEN = re.compile(r"(?<=[^\s(])\s*(?:–|-|\bto\b|\.\.)\s*")
_UNIT = re.compile(r"[^\d\s.,½¼¾⅓⅔⅛+−-].*$")


def _text_of(given: Any, what: str) -> str:
    if not isinstance(given, str):
        raise Refused(f"The {what} must be text in quotes.")
    return given


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A kind of value; `what` is how a sentence calls the field that holds it.

    Attributes:
        read: reads what was typed; raises Refused.
        what: how a sentence calls it, where the kind knows that.
        write: writes it as it may be typed.
        say: writes it for reading, where that is another text.
        takes: makes the text to read, or the value itself, of what TOML or JSON holds.
        dump: what TOML and JSON hold of it, in SI, where that is not as it is written.
        check: raises Refused for a value that cannot be.
        ends: what the names of its columns in the database have after the field's.
        split: puts it into its columns, None too.
        join: takes it out of them.
        schema: its JSON schema.
        lines: whether it may have several lines.
        unit: the SI unit of a number.
        typed: the words for its values in the line of a stage, by value.
        said: these words for reading.
        times: the field that says how often, or the word for it where this is that field.
    """

    read: Reader
    what: str = ""
    write: Writer = lambda value, units: str(value)
    say: Writer | None = None
    takes: Callable[[Any, str], Any] = _text_of
    dump: Callable[[Any], Any] | None = None
    check: Callable[[Any, str], object] = lambda value, what: None
    ends: tuple[str, ...] = ("",)
    split: Callable[[Any], Sequence[Any]] = lambda value: (value,)
    join: Callable[[Sequence[Any]], Any] = lambda row: row[0]
    schema: Mapping[str, Any] = field(default_factory=lambda: {"type": "string"})
    lines: bool = False
    unit: str = ""
    typed: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, str] = field(default_factory=dict)
    times: str = ""

    def plain(self, value: Any) -> str:
        """Write it in SI as `read` reads it."""
        return f"{value:g} {self.unit}".rstrip() if self.unit else self.write(value, "metric")

    def words(self, value: Any, units: Units) -> str:
        """Write it for reading."""
        return (self.say or self.write)(value, units)

    def load(self, given: Any, what: str, units: Units) -> Any:
        """Take it from TOML or JSON; raise Refused."""
        value = self.takes(given, what)
        if isinstance(value, str):
            value = self.read(value, what, units)
        self.check(value, what)
        return value

    def columns(self, name: str) -> tuple[str, ...]:
        """Name its columns after the field's name."""
        return tuple(name + end for end in self.ends)

    def dumped(self, value: Any) -> Any:
        """Put it as TOML and JSON hold it."""
        return self.write(value, "metric") if self.dump is None else self.dump(value)


def _truth(given: Any, what: str) -> bool:
    if not isinstance(given, bool):
        raise Refused(f"The {what} must be true or false.")
    return given


TEXT = Value(read=lambda text, what, _: clean_name(text, what))
NOTE = Value(read=lambda text, what, _: clean_note(text), lines=True)
FLAG = Value(read=lambda text, what, _: bool(yes_no(text, what.capitalize())),
    write=lambda value, _: "y" if value else "n", say=lambda value, _: "yes" if value else "no",
    takes=_truth, dump=bool, join=lambda row: bool(row[0]),
    schema={"type": "boolean"})  # fmt: skip


def span(most: float = math.inf, most_words: str = "", nothing: Sequence[str] = ()) -> Value:
    """Make a length of time in whole seconds up to `most`; `nothing` are words for 0."""

    def check(value: int, what: str) -> None:
        if value > most:
            raise Refused(f"The {what} is longer than {most_words}; write it like 8h.")

    return Value(
        read=lambda text, what, _: 0 if fold(text) in nothing else measures.seconds(text, what),
        write=lambda value, _: measures.span_words(value), check=check,
        schema={"type": "string", "pattern": r"^\d+(s|min|h|d)( \d+h)?$"})  # fmt: skip


ALLERGENS = Value(what="allergens", read=lambda text, what, _: allergens_read(text))  # fmt: skip


def _number(given: Any, what: str) -> float | str:
    if isinstance(given, str):
        return given
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        raise Refused(f"The {what} must be a number.")
    if not math.isfinite(given):
        raise Refused(f"The {what} must be a real number.")
    return float(given)


def _tidy(value: float) -> float | int:
    return int(value) if value == int(value) else value


def measured(quantity: Quantity, say: Writer | None = None) -> Value:
    """Make a number of a quantity; `say` writes it for reading where that is not to four digits."""
    return Value(what=quantity.name, read=lambda text, what, units: quantity.read(text, units),
        write=quantity.text, say=say, takes=_number, dump=_tidy,
        check=lambda value, what: quantity.checked(value), schema={"type": "number"},
        unit=quantity.scale.metric)  # fmt: skip


def times(word: str = "") -> Value:
    """Make times a day, 0 for never; `word` calls them in a stage's line."""

    def check(value: float, what: str) -> None:
        if value and not 0.1 <= value <= 12:
            raise Refused(f"{what} {value:g} times a day; use 0, or 0.1 to 12.")

    return Value(read=lambda text, what, _: measures.plain(text, what), takes=_number, dump=_tidy,
        check=check, schema={"type": "number"}, times=word)  # fmt: skip


def wanted_hours(quantity: Quantity) -> Value:
    """Make hours of a day; of a band the higher end is taken."""
    return replace(measured(quantity),
        read=lambda text, what, units: band_from(text, quantity, units).high,
        takes=lambda given, what: str(_number(given, what)), dump=None,
        schema={"type": "string"})  # fmt: skip


def choice(
    values: Sequence[str], typed: Mapping[str, str], said: Mapping[str, str] | None = None,
    times: str = "",
) -> Value:  # fmt: skip
    """Make one of a few words; those that are not in `typed` are left out of a stage's line."""

    def check(value: str, what: str) -> None:
        if value not in values:
            raise Refused(f'{what} "{value}" is unknown; use {", ".join(values)}.')

    return Value(read=lambda text, what, _: text.strip().casefold(), check=check,
        schema={"enum": list(values)}, typed=typed, said=said or typed, times=times)  # fmt: skip


def size() -> Value:
    """Make a length and a width in mm."""

    def write(value: Sequence[float], units: Units) -> str:
        unit = measures.millimetres.bare(units)
        sides = (measures.millimetres.shown(side, units) for side in value)
        return " x ".join(number_words(side, 2) for side in sides) + f" {unit}"

    return Value(read=lambda text, what, units: tray_size(text, units), write=write,
        say=lambda value, units: " × ".join(measures.length_words(side, units) for side in value),
        dump=lambda value: "x".join(f"{_tidy(side)}" for side in value) + "mm",
        check=lambda value, what: _check_each(TRAY_SIDE, value), ends=("_length_mm", "_width_mm"),
        split=tuple, join=tuple)  # fmt: skip


def band(quantity: Quantity, *, bare: bool = False) -> Value:
    """Make a band of a quantity; a `bare` one is typed and kept without a unit."""

    def words(value: Band, units: Units, unit: str, digits: int) -> str:
        ends = (
            None if end is None else quantity.scale.shown(end, units)
            for end in (value.low, value.high)
        )
        return f"{Band(*ends).written(digits)} {unit}".rstrip()

    def write(value: Band, units: Units) -> str:
        unit = "" if bare else quantity.scale.bare(units).replace("°", "")
        return words(value, units, unit, 4)

    def takes(given: Any, what: str) -> str:
        if isinstance(given, bool) or not isinstance(given, (str, int, float)):
            raise Refused(f'The {what} must be like "18-24".')
        return str(given)

    return Value(what=quantity.name,
        read=lambda text, what, units: band_from(text, quantity, units), write=write,
        say=lambda value, units: words(value, units, quantity.scale.bare(units), 2), takes=takes,
        check=lambda value, what: _check_each(quantity, (value.low, value.high)),
        ends=("_low", "_high"),
        split=lambda value: (None, None) if value is None else (value.low, value.high),
        join=lambda row: None if row[0] is row[1] is None else Band(*row))  # fmt: skip


def _check_each(quantity: Quantity, values: Iterable[float | None]) -> None:
    for value in values:
        if value is not None:
            quantity.checked(value)


def band_from(text: str, quantity: Quantity, units: Units = "metric") -> Band:
    """Read "18-24 C" (a unit behind holds for both), "at least 40 %", "up to 2" or one number."""
    cleaned = clean(text, lines=False)
    for opening in ("at least", "from", ">=", "≥"):
        if cleaned.casefold().startswith(opening):
            return Band(quantity.read(cleaned[len(opening) :], units), None)
    for opening in ("at most", "up to", "<=", "≤"):
        if cleaned.casefold().startswith(opening):
            return Band(None, quantity.read(cleaned[len(opening) :], units))
    parts = _BETWEEN.split(cleaned)
    if len(parts) > 2:
        raise Refused(f'The {quantity.name} "{cleaned[:40]}" cannot be read; write it like 18-24.')
    if len(parts) == 2 and not _UNIT.search(parts[0]):
        unit = _UNIT.search(parts[1])
        parts[0] += unit[0] if unit else ""
    ends = [quantity.read(part, units) for part in parts]
    return Band(ends[0], ends[-1])
