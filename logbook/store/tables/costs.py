"""What a grower says that things cost."""

from datetime import date

from sqlmodel import Field

from logbook.store.tables.base import OfEntry


class CostRateRow(OfEntry, table=True):
    """What something costs or takes from a day on, of a crop or of all: see growing/costs/rates.py.

    `amount` is a decimal, as typed.
    """

    __tablename__ = "cost_rate"
    name: str
    template_id: int | None = Field(default=None, foreign_key="template.id")
    amount: str
    since: date
