"""What buyers of live trays assure in writing, for a year: that they wash and keep cold what they cut.

Whether one is asked for, the buyer's and the grower's authority says; the rule asks it of buyers who
process produce (21 CFR 112.2(b)(3), from memory).
"""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.customers import find_customer
from logbook.actions.trays.done import Done, done_of
from logbook.growing.days import day_words
from logbook.store.reads.orders import read_customers
from logbook.store.reads.records import live_tray_buyers, read_assurances
from logbook.text import Refused

YEAR = timedelta(days=365)
SOON = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class Assurance:
    """A buyer of live trays, and until when their newest assurance holds; null for none."""

    keys: ClassVar = "customer given_on until holds says words"

    customer: str
    given_on: date | None
    says: str
    today: date

    @property
    def until(self) -> date | None:
        """The last day of its year."""
        return self.given_on + YEAR if self.given_on else None

    @property
    def holds(self) -> bool:
        """Whether one holds today."""
        return self.until is not None and self.until >= self.today

    @property
    def words(self) -> str:
        """Say it: "Bistro: holds until Sat 28 Nov 2027"."""
        if self.until is None:
            return f"{self.customer}: none in the book"
        until = day_words(self.until, self.today)
        if not self.holds:
            return f"{self.customer}: ran out on {until}"
        soon = ", ask for the next" if self.until - self.today <= SOON else ""
        return f"{self.customer}: valid until {until}{soon}"


def list_assurances(book: Book) -> tuple[Assurance, ...]:
    """Those who got live trays within a year, or ever assured anything, by name."""
    with book.reading() as reading:
        today = reading.today
        newest = {each.customer_id: each for each in read_assurances(reading)}
        wanted = live_tray_buyers(reading, today - YEAR) | set(newest)
        return tuple(
            Assurance(
                each.name, newest[each.id].given_on if each.id in newest else None,
                newest[each.id].note if each.id in newest else "", today,
            )
            for each in read_customers(reading)
            if each.id in wanted and not each.gone
        )  # fmt: skip


def assure(book: Book, customer: str, words: str, given_on: date | None = None) -> Done:
    """Write what a customer assured in writing, today or on a day before; raises Refused."""
    with book.writing() as act:
        known, today = find_customer(act.reading, customer), act.reading.today
        day = given_on or today
        if not today - 2 * YEAR <= day <= today:
            raise Refused("Give the day on which it was signed, up to today.", "given_on")
        if not words.strip():
            raise Refused(
                "What was assured? A few words, like: washes and chills what is cut.", "words"
            )
        entry = act.entry("assurance", (), note=words)
        act.put("assurance", entry, customer_id=known.id, given_on=day)
        until = day_words(day + YEAR, today)
        return done_of(act, f"{known.name} assured: {words}; valid until {until}", ())
