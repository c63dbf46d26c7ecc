"""Solutions and cleaning: what was used, where and how; the record has its date and method."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.trays.done import Done, done_of
from logbook.growing.measures import volume_words
from logbook.growing.room.solutions import Dilution, cautions, dilute, product_kind, use_words
from logbook.store.reads.water import StoredUse, read_uses
from logbook.text import Refused, clean_name, clean_words


@dataclass(frozen=True, slots=True)
class UseDraft:
    """What was cleaned or soaked (`purpose`), how (`method`), and with what.

    Strengths in percent weight in volume, volume in ml; all three or none.
    """

    purpose: str
    method: str
    product: str = ""
    stock_percent: float | None = None
    want_percent: float | None = None
    volume_ml: float | None = None
    place: str = ""
    note: str = ""
    at: datetime | None = None

    @property
    def dilution(self) -> Dilution | None:
        """How much of each; None where no strengths are given. Raise Refused for some but not all."""
        given = (self.stock_percent, self.want_percent, self.volume_ml)
        if all(one is None for one in given):
            return None
        stock, want, volume = given
        if stock is None or want is None or volume is None:
            raise Refused(
                "Give stock, wanted strength and volume together, like 5.25%, 200ppm and 10L; or "
                "none of them."
            )
        return dilute(stock, want, volume)


def use_solution(book: Book, draft: UseDraft) -> Done:
    """Write that something was cleaned or a solution used; its cautions come back as notices."""
    from logbook.store.tables import SolutionUseRow

    purpose = clean_name(draft.purpose, "purpose (what was cleaned or soaked)")
    method = clean_name(draft.method, "method (how it was done)")
    product = clean_words(draft.product, "product")
    made = draft.dilution
    with book.writing() as act:
        when = act.moment(draft.at, "A cleaning")
        spot = act.reading.places.find(draft.place).id if draft.place else None
        entry = act.entry("clean", (), when, note=draft.note, place=spot)
        act.session.add(
            SolutionUseRow(
                entry_id=entry,
                purpose=purpose,
                method=method,
                product=product,
                stock_percent=draft.stock_percent,
                want_percent=draft.want_percent,
                volume_ml=draft.volume_ml,
            )
        )
        words = f"cleaned: {use_words(purpose, method, product, draft.want_percent)}"
        notices = [made.words(book.units)] if made else []
        if product:
            notices += cautions(product_kind(product), draft.stock_percent, draft.want_percent)
        return done_of(act, words, (), notices)


@dataclass(frozen=True, slots=True)
class UseLine:
    """One use as it is shown."""

    keys: ClassVar = """
        entry=use.entry at=use.at by=use.by place purpose=use.purpose method=use.method
        product=use.product stock_percent=use.stock_percent want_percent=use.want_percent
        volume_ml=use.volume_ml note=use.note words
    """

    use: StoredUse
    place: str
    words: str


@dataclass(frozen=True, slots=True)
class CleaningRecord:
    """What was cleaned in so many days, how and with what, oldest first."""

    days: int
    uses: tuple[UseLine, ...]


def list_uses(book: Book, days: int = 365) -> list[UseLine]:
    """The uses of so many days, oldest first."""
    if not 1 <= days <= 3660:
        raise Refused(f"{days} days? Give 1 to 3660.")
    lines = []
    with book.reading() as reading:
        since, until = reading.now - timedelta(days=days), reading.now + timedelta(minutes=10)
        for use in read_uses(reading, since, until):
            words = use_words(use.purpose, use.method, use.product, use.want_percent)
            if use.volume_ml is not None:
                words += f", {volume_words(use.volume_ml, reading.units)}"
            lines.append(UseLine(use, reading.places.path(use.place), words))
    return lines
