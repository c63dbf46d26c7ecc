"""Records that rules ask for: who reviewed a week, what buyers assured, what was sold in a year."""

from datetime import date

from sqlmodel import Field

from logbook.store.tables.base import OfEntry


class ReviewRow(OfEntry, table=True):
    """Whoever wrote the entry has reviewed the records of the week that begins on a Monday."""

    __tablename__ = "review"
    week: date = Field(index=True)


class AssuranceRow(OfEntry, table=True):
    """A customer's written assurance of a day, for a year; the entry's note has its words."""

    __tablename__ = "assurance"
    customer_id: int = Field(foreign_key="entry.id")
    given_on: date


class SalesYearRow(OfEntry, table=True):
    """What was sold in a calendar year, in the book's currency: decimals as typed; the newest row holds.

    `sold` is all food, `to_end_users` the part that went straight to qualified end users, `produce`
    the part that is produce.
    """

    __tablename__ = "sales_year"
    year: int
    sold: str
    to_end_users: str
    produce: str | None = None
