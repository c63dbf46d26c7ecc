"""A delivery note for paper: what a customer gets, by whom it was packed, and where to sign."""

from dataclasses import dataclass
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.actions.packs.note import DeliveryNote, delivery_note, note_words
from logbook.exchange.paper import Section, section_page, section_words
from logbook.growing.days import day_words
from logbook.text import listed

MADE_BY = "logbook deliveries note"


@dataclass(frozen=True, slots=True)
class NotePaper:
    """A delivery note, laid out for paper."""

    note: DeliveryNote
    title: str
    sections: tuple[Section, ...]

    def lines(self, columns: int) -> list[str]:
        """As plain text for so many columns."""
        return [self.title, "", *section_words(self.sections, columns)]


def note_paper(book: Book, customer: str, day: str = "") -> NotePaper:
    """The note of a customer's delivery of a day, or of the last one packed; as delivery_note()."""
    found = delivery_note(book, customer, day)
    people = sorted({each.packed_by for each in found.lines if each.packed_by})
    last = book.when(max(each.packed_at for each in found.lines))
    sections = (
        Section(found.customer, [("", found.contact)] if found.contact else []),
        Section("Packs", [note_words(each, book) for each in found.lines]),
        Section("From", [("", part) for part in (found.maker, *found.address.split("; ")) if part]),
        Section("Packed", [("", f"{last} by {listed(people)}" if people else last)]),
        Section("Received", [("", "name, time, temperature:")]),
    )
    title = f"Delivery note: {found.customer}, {day_words(found.day)} {found.day.year}"
    return NotePaper(found, title, sections)


def write_note(book: Book, out: Path, customer: str, day: str = "") -> tuple[DeliveryNote, str]:
    """Write the note as a page, unless a file that isn't ours is there; says where it is."""
    paper = note_paper(book, customer, day)
    write_made(out, section_page(paper.title, paper.sections, MADE_BY), mark_of(MADE_BY))
    return paper.note, f"The note was {written_to(out)}"
