"""The air in columns: the last reading of each place, and what it was lit and dark."""

from typing import NamedTuple

from logbook.growing.measures import Units, number_words, temperature_words
from logbook.growing.room.air import AirMean, AirReading
from logbook.growing.table import Column


class AirRow(NamedTuple):
    """A line of the table: what it is of, and what the air is like there."""

    name: str
    air: AirReading | AirMean
    rest: str = ""


def air_columns(head: str, rest: str, units: Units) -> tuple[Column[AirRow], ...]:
    """Temperature, humidity, VPD and dew point, each with its unit in the head."""
    unit = temperature_words(0, units).split()[-1]

    def degrees(celsius: float) -> str:
        return temperature_words(celsius, units).split()[0]

    def dew(row: AirRow) -> str:
        point = row.air.dew_point_c if isinstance(row.air, AirReading) else None
        return "" if point is None else degrees(point)

    return (
        Column(head, lambda row: row.name, right=False),
        Column(unit, lambda row: degrees(row.air.celsius)),
        Column("% RH", lambda row: number_words(row.air.humidity)),
        Column("VPD kPa", lambda row: f"{row.air.vpd_kpa:.2f}", spare=1),
        Column(f"dew {unit}", dew, spare=2),
        Column(rest, lambda row: row.rest, right=False),
    )


def reading_row(name: str, one: AirReading, rest: str) -> AirRow:
    """A reading; whether the air was still goes with the rest that is said of it."""
    still = {True: "still", False: "moving", None: ""}[one.still]
    return AirRow(name, one, " ".join(filter(None, (rest, still))))


def mean_rows(day: AirMean | None, night: AirMean | None) -> list[AirRow]:
    """The means over the lit and the dark hours, those that are known."""
    return [
        AirRow(name, mean, f"over {number_words(mean.hours)} h")
        for name, mean in (("lit", day), ("dark", night))
        if mean is not None
    ]
