"""The fields of a crop template as data: each is declared once, in its class, by `told(…)`.

What TOML, JSON, forms, the database, comparisons and schemas need of them derives from that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import MISSING, dataclass, field, fields, replace
from operator import attrgetter
from typing import Any, ClassVar, NamedTuple, TypeVar, dataclass_transform

from logbook.growing.crops.template_values import Value
from logbook.growing.measures import Units
from logbook.text import Refused, nearest


class Compared(NamedTuple):
    """How a field is compared between the trays of a trial.

    A trial of the factor `of` does not list it. See growing.trials.likeness.Fact for the others.
    """

    name: str
    tolerance: float = 0.0
    joint: str = "with"
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that is said of a field; `attribute`, `default` and `required` are its class's.

    Attributes:
        kind: how its values are read, written, checked and kept.
        what: its name in a sentence.
        key: its name in TOML and JSON, where that is not the attribute's.
        typed_key: another name in TOML, for a text with a unit instead of a number in SI.
        label: its name in a form, where that is not `what`.
        hint: what a form says beside it, or that in metric and in US units.
        heading: what a form says above it.
        first: what a form of a new template begins with, where that is not the default.
        says: its line for reading, {} for the value.
        meaning: what its schema says.
        missing: the sentence that asks for it where it must be given.
        factor: its name as what differs in a trial, and how a sentence calls that.
        compared: how it is compared between the trays of a trial; None where it is not.
        columns: its columns in the database, where their names do not follow from the attribute.
    """

    kind: Value | Part
    what: str
    key: str = ""
    typed_key: str = ""
    label: str = ""
    hint: str | tuple[str, str] = ""
    heading: str = ""
    first: Any = None
    says: str = ""
    meaning: str = ""
    missing: str = ""
    factor: tuple[str, str] | None = None
    compared: Compared | None = None
    columns: tuple[str, ...] | None = None
    attribute: str = ""
    default: Any = None
    required: bool = False

    @property
    def value(self) -> Value:
        """Its kind, when it is not a part."""
        assert isinstance(self.kind, Value)  # noqa: S101
        return self.kind

    @property
    def may_be_empty(self) -> bool:
        """Whether its default is nothing, which TOML and JSON leave out."""
        if isinstance(self.default, Record):
            return not mapping_of(self.default)
        return not self.required and self.default in (None, "")

    @property
    def begins(self) -> Any:
        """What a form of a new template begins with; None for nothing."""
        return self.default if self.first is None else self.first

    @property
    def line(self) -> str:
        """Its name among a form's lines, which is also what a refusal is about."""
        return self.typed_key or self.key.removesuffix("_percent")

    def read(self, text: str, units: Units) -> Any:
        """Read what was typed; None where nothing was and need not be. Raise Refused."""
        if not text.strip():
            if self.missing:
                raise Refused(self.missing)
            return None
        value = self.value.read(text, self.what, units)
        self.value.check(value, self.what)
        return value

    def load(self, given: Mapping[str, Any], units: Units) -> Any:
        """Take it from a mapping of TOML or JSON; None where it is not there. Raise Refused."""
        value = given.get(self.typed_key)
        if value not in (None, "") and not isinstance(value, str):
            raise Refused(f"The {self.what} must be text in quotes.")
        value = value or given.get(self.key)
        if value is None or value == "":
            return None
        return self.kind.load(value, self.what, units)

    def said(self, value: Any, units: Units) -> str:
        """Write its line for reading."""
        return (self.says or f"{self.label}: {{}}").format(self.value.words(value, units))

    def hint_in(self, units: Units) -> str:
        """Choose the hint in these units."""
        return self.hint if isinstance(self.hint, str) else self.hint[units == "us"]


class Record:
    """A class of fields; `fields` are all of them, in order."""

    __slots__ = ()
    fields: ClassVar[tuple[Told, ...]] = ()

    @classmethod
    def filled(cls, values: dict[str, Any]) -> dict[str, Any]:
        """Add what follows from the values that were given, by attribute."""
        return values


Made = TypeVar("Made", bound=Record)


@dataclass(frozen=True, slots=True)
class Part:
    """A class of fields inside another, or `many` of them: then in a table of their own.

    `prefix` comes before the names of its lines and columns, `where` names it in a sentence,
    `example` says how TOML holds it.
    """

    record: type[Record]
    where: str
    example: str
    prefix: str = ""
    many: bool = False

    def load(self, given: Any, what: str, units: Units) -> Any:
        """Take it from TOML or JSON; raise Refused."""
        each = given if self.many and isinstance(given, (list, tuple)) else [given]
        if (self.many and each is not given) or not all(isinstance(one, Mapping) for one in each):
            raise Refused(f"The {what} must be {self.example}.")
        if not self.many:
            return record_from(self.record, given, self.where, units)
        return tuple(self._one(one, at, units) for at, one in enumerate(each, 1))

    def _one(self, given: Mapping[str, Any], at: int, units: Units) -> Record:
        name = given.get("name")
        named = f'"{name[:40]}"' if isinstance(name, str) and name.strip() else at
        where = f"{self.where} {named}"
        try:
            return record_from(self.record, given, where, units)
        except Refused as refused:
            said = str(refused)
            raise Refused(said if said.startswith(where) else f"{where}: {said}") from refused

    def dumped(self, value: Any) -> Any:
        """Put it as TOML and JSON hold it."""
        return [mapping_of(one) for one in value] if self.many else mapping_of(value)

    def split(self, value: Any) -> Sequence[Any]:
        """Put it into its columns."""
        return tuple(to_columns(value).values())

    def join(self, row: Sequence[Any]) -> Any:
        """Take it out of its columns."""
        return from_columns(self.record, row)

    def columns(self, _: str) -> tuple[str, ...]:
        """Name its columns."""
        return tuple(self.prefix + column for column in columns_of(self.record))


def told(kind: Value | Part, what: str = "", *, default: Any = MISSING, **more: Any) -> Any:
    """Declare a field; see Told."""
    return field(default=default, metadata={"told": Told(kind=kind, what=what, **more)})


@dataclass_transform(frozen_default=True, field_specifiers=(told, field))
def record(*, kw_only: bool = False) -> Callable[[type[Made]], type[Made]]:
    """Make a class a frozen dataclass of fields that are told."""

    def decorate(cls: type[Made]) -> type[Made]:
        finished: type[Made] = dataclass(frozen=True, slots=True, kw_only=kw_only)(cls)
        finished.fields = tuple(
            _completed(each.metadata["told"], each.name, each.default)
            for each in fields(finished)  # type: ignore[arg-type]
            if "told" in each.metadata
        )
        return finished

    return decorate


def _completed(said: Told, name: str, default: Any) -> Told:
    what = said.what or said.value.what
    columns = said.kind.columns(name) if said.columns is None else said.columns
    required = default is MISSING
    return replace(
        said, attribute=name, key=said.key or name, what=what, label=said.label or what,
        columns=columns, default=None if required else default, required=required,
    )  # fmt: skip


def made(cls: type[Made], values: Mapping[str, Any], prefix: str = "") -> Made:
    """Make a record of values by attribute; raises Refused where one is None that must be there."""
    given = cls.filled({name: value for name, value in values.items() if value is not None})
    lacking = [each for each in cls.fields if each.required and each.attribute not in given]
    if lacking:
        first = next((each for each in lacking if each.missing), lacking[0])
        sentence = first.missing or f"The {first.what} is empty; give at least one letter."
        raise Refused(sentence, prefix + first.line)
    return cls(**given)


def record_from(
    cls: type[Made], given: Mapping[str, Any], where: str, units: Units = "metric"
) -> Made:
    """Read a record from a mapping of TOML or JSON; raise Refused."""
    known = [name for each in cls.fields for name in (each.key, each.typed_key) if name]
    for key in given:
        if key not in known:
            raise Refused(f'{where} has no "{str(key)[:40]}".{nearest(str(key), known)}')
    return made(cls, {each.attribute: each.load(given, units) for each in cls.fields})


def mapping_of(record: Record) -> dict[str, Any]:
    """Put a record as record_from reads it: numbers in SI, nothing that is empty."""
    values = ((each, getattr(record, each.attribute)) for each in record.fields)
    dumped = {each.key: each.kind.dumped(value) for each, value in values if value is not None}
    return {key: value for key, value in dumped.items() if value not in ("", {})}


def columns_of(cls: type[Record]) -> tuple[str, ...]:
    """Name the columns of a record's table that hold its fields."""
    return tuple(column for each in cls.fields for column in each.columns or ())


def to_columns(record: Record) -> dict[str, Any]:
    """Put a record into its columns, by name."""
    found: dict[str, Any] = {}
    for each in record.fields:
        if each.columns:
            row = each.kind.split(getattr(record, each.attribute))
            found |= zip(each.columns, row, strict=True)
    return found


def from_columns(cls: type[Made], row: Sequence[Any], **more: Any) -> Made:
    """Make a record of the values of columns_of; `more` are its attributes that have none."""
    at = 0
    for each in cls.fields:
        if each.columns:
            more[each.attribute] = each.kind.join(row[at : at + len(each.columns)])
            at += len(each.columns)
    return cls(**more)


class Leaf(NamedTuple):
    """A field of a record or of a part of it, by the name of its line."""

    name: str
    path: tuple[str, ...]
    told: Told

    def of(self, record: Record) -> Any:
        """Take its value out of a record."""
        return attrgetter(".".join(self.path))(record)


def leaves(cls: type[Record], prefix: str = "", path: tuple[str, ...] = ()) -> tuple[Leaf, ...]:
    """List all fields of a record, those of its parts in the place of these."""
    found: list[Leaf] = []
    for each in cls.fields:
        at = (*path, each.attribute)
        if isinstance(each.kind, Part) and not each.kind.many:
            found += leaves(each.kind.record, each.kind.prefix, at)
        else:
            found.append(Leaf(prefix + each.line, at, each))
    return tuple(found)


def from_lines(cls: type[Made], values: Mapping[str, Any], prefix: str = "") -> Made:
    """Make a record of values by the names of their lines; raise Refused."""
    given = {
        each.attribute: from_lines(each.kind.record, values, each.kind.prefix)
        if isinstance(each.kind, Part) and not each.kind.many
        else values.get(prefix + each.line)
        for each in cls.fields
    }
    return made(cls, given, prefix)
