"""Lamps, circuits, prices, light, air and cleanings, each as an entry says."""

from datetime import date, datetime

from sqlalchemy import Index
from sqlmodel import Field

from logbook.store.tables.base import LINK, Moment, Numbered, OfEntry, Table


class LampSetRow(OfEntry, table=True):
    """The lamps of a shelf from an entry of kind "lamps" on; `lamps` 0 says that they are off it.

    Watts and amperes are those of one lamp; `height_mm` is from the shelf to the lamp.
    """

    __tablename__ = "lamp_set"
    lamps: int
    kind: str = ""
    light: str = ""
    watts: float = 0.0
    amps: float | None = None
    volts: float | None = None
    height_mm: float | None = None
    bought: date | None = None


class LampHoursRow(OfEntry, table=True):
    """Lamp hours of a shelf from an entry of kind "hours" on, and those that held before it.

    Minutes after midnight by the wall; None for no lamp hours.
    """

    __tablename__ = "lamp_hours"
    lamp_on: int | None = None
    lamp_off: int | None = None
    was_on: int | None = None
    was_off: int | None = None


class OutageRow(OfEntry, table=True):
    """Until when the power was off at the place of an entry of kind "outage", from its time on."""

    __tablename__ = "outage"
    until: datetime = Field(sa_type=Moment)


class CircuitRow(OfEntry, table=True):
    """A circuit as an entry of kind "circuit" says; `other_amps` is what else hangs on it.

    The newest standing entry of a `name_key` holds; `gone` says that there is no such circuit.
    """

    __tablename__ = "circuit"
    name: str
    name_key: str = Field(index=True)
    breaker_amps: float
    volts: float
    share_percent: float
    other_amps: float = 0.0
    gone: bool = False


class CircuitShelfRow(Table, table=True):
    """Which shelves' lamps hang on a circuit."""

    __tablename__ = "circuit_shelf"
    __table_args__ = LINK
    entry_id: int = Field(foreign_key="circuit.entry_id", primary_key=True)
    place_id: int = Field(foreign_key="place.id", primary_key=True)


class TariffRow(OfEntry, table=True):
    """A price per kWh from a day on, as an entry of kind "tariff" says: a decimal, as typed."""

    __tablename__ = "tariff"
    since: date
    per_kwh: str


class TariffHoursRow(Table, table=True):
    """Hours of a tariff at another price; minutes after midnight by the wall."""

    __tablename__ = "tariff_hours"
    __table_args__ = LINK
    entry_id: int = Field(foreign_key="tariff.entry_id", primary_key=True)
    position: int = Field(primary_key=True)
    starts: int
    ends: int
    per_kwh: str


class LightSurveyRow(OfEntry, table=True):
    """One walk round a shelf with a meter; `lux_lamp` names the lamp of an estimate from lux.

    `height_mm` is from the trays to the lamp.
    """

    __tablename__ = "light_survey"
    spot_rows: int
    spot_columns: int
    height_mm: float | None = None
    lux_lamp: str = ""


class LightSpotRow(Table, table=True):
    """A reading at a spot: row 1 is the front, column 1 the left; PPFD in µmol m⁻² s⁻¹."""

    __tablename__ = "light_spot"
    __table_args__ = LINK
    entry_id: int = Field(foreign_key="light_survey.entry_id", primary_key=True)
    spot_row: int = Field(primary_key=True)
    spot_column: int = Field(primary_key=True)
    ppfd: float
    lux: float | None = None


class AirReadingRow(Numbered, table=True):
    """Temperature and humidity at a place; a feed's entry has as many as were held."""

    __tablename__ = "air_reading"
    __table_args__ = (Index("ix_air_reading_place_at", "place_id", "at"),)
    entry_id: int = Field(foreign_key="entry.id", index=True)
    place_id: int = Field(foreign_key="place.id")
    at: datetime = Field(sa_type=Moment)
    celsius: float
    humidity: float
    still: bool | None = None


class SolutionUseRow(OfEntry, table=True):
    """A solution that was used, or a cleaning: what, with which product and method, how strong."""

    __tablename__ = "solution_use"
    purpose: str
    method: str
    product: str = ""
    stock_percent: float | None = None
    want_percent: float | None = None
    volume_ml: float | None = None


class UpkeepRow(OfEntry, table=True):
    """How often something is cleaned or checked at the place of an entry of kind "upkeep".

    The newest standing row of a `name_key` and place holds; `every_days` 0 says that it no longer
    comes round. `weekdays` is as in growing/orders/weekdays.py; `known_grams` what a scale is
    checked with.
    """

    __tablename__ = "upkeep"
    name: str
    name_key: str
    every_days: float
    weekdays: str = ""
    how: str = ""
    known_grams: float | None = None


class UpkeepDoneRow(OfEntry, table=True):
    """That a cleaning (kind "clean") or check ("check") was done, or put off ("skip").

    `value` is what a check showed: °C, E. coli in 100 ml, or g for `known_grams`.
    """

    __tablename__ = "upkeep_done"
    name: str
    name_key: str = Field(index=True)
    value: float | None = None
    known_grams: float | None = None
