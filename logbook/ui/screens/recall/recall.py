"""A recall: whom to call for which lots, what is in the cold store and grows of it; timed until it is finished."""

from itertools import groupby

from rich.cells import cell_len
from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.recall.recall_words import RecallLine, cautions, packs_columns, recall_lines
from logbook.actions.recall.recalling import RecallDraft, keep_recall, recall
from logbook.growing.days import day_words
from logbook.growing.recall.recall import CalledLot, CalledPacks, Recall
from logbook.growing.table import table
from logbook.text import clean
from logbook.ui.columns import wrapped
from logbook.ui.drafts import answer_to
from logbook.ui.forms.asking import AskChoice
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import RecallSubject, Subject, TraceSubject
from logbook.ui.widgets.form_lines import any_text
from logbook.ui.widgets.walk_list import Row

NOTE = "Anything worth noting?"


class RecallScreen(LogScreen):
    """Whom to call on top, then what is in the cold store and what grows."""

    heading = "recall"
    purpose = (
        "Who got packs of what is recalled, with contact, lots and weights; what of it is in the "
        "cold store and still growing. {hold} puts all of it on hold. {finish} says everyone was "
        "reached: practice or real, it is kept with how long it took. {copy_page} copies "
        "the list."
    )
    enter = "finish"
    own = ("finish", "hold")
    subject: RecallSubject
    view: Recall | None = None

    def load(self, book: Book) -> Recall:
        return recall(book, self.subject.code)

    def rows(self, view: Recall) -> list[Row]:
        self.counts = f"from {clean(view.name, lines=False)}"
        rows, lines = list[Row](), enumerate(recall_lines(view, self.book.units))
        for packed, group in groupby(lines, lambda each: isinstance(each[1].of, CalledPacks)):
            some = list(group)
            rows += self._packs(some) if packed else [self._row(*each) for each in some]
        for sentence in cautions():
            rows += [
                Row(Content.styled(each, "$text-past")) for each in wrapped(sentence, self.width)
            ]
        return rows

    def _packs(self, lines: list[tuple[int, RecallLine]]) -> list[Row]:
        """What one customer got, in columns."""
        indent = "" if self.narrow else "    "
        packs = [line.of for _, line in lines if isinstance(line.of, CalledPacks)]
        drawn = table(packs_columns(self.book.units), packs, self.width - len(indent), cell_len)
        heads = [Row.head(indent + each, "$text-past") for each in drawn.heads]
        texts = ["\n".join(indent + part for part in each.split("\n")) for each in drawn.rows]
        return heads + [
            Row(Content(text), f"{at}", line) for text, (at, line) in zip(texts, lines, strict=True)
        ]

    def _row(self, at: int, line: RecallLine) -> Row:
        text = clean(line.text.lstrip(), lines=False)
        indent = len(line.text) - len(line.text.lstrip())
        words = "\n".join(" " * indent + each for each in wrapped(text, self.width - indent))
        if not indent and not line.wants:
            return Row.head(words)
        return Row(Content.styled(words, "$warning" if line.wants else ""), f"{at}", line)

    def beside(self) -> Content | Subject | None:
        line: RecallLine | None = self.walk.under
        if line is None:
            return None
        units = self.book.units
        if isinstance(line.of, CalledLot | CalledPacks):
            code = line.of.lot.code if isinstance(line.of, CalledPacks) else line.of.code
            return TraceSubject(f"pack lot {code}")
        if line.of is None:
            return self.told("", line.text.strip())
        got = [
            (each.lot.code, f"{day_words(each.day)}, {each.amount(units)}")
            for each in line.of.deliveries
        ]
        contact = line.of.contact or "no contact written"
        return self.told(line.of.name, Content.styled(clean(contact), "bold $warning"), got)

    def to_hold(self) -> str:
        return self.subject.code

    @work
    async def action_finish(self) -> None:
        asked = [("practice", "p", "practice"), ("real", "r", "a real recall")]
        kind = await self.ask(AskChoice("Everyone reached? Keep it as", asked, "esc back"))
        if not kind:
            return
        code, begun, practice = self.subject.code, self.subject.begun, kind == "practice"
        done = await self.ask_to_write(
            self.asks_line(NOTE, any_text, hint="enter keeps it   esc back"),
            lambda book, note: keep_recall(book, RecallDraft(code, begun, practice, note)),
            answer_to(NOTE),
        )
        self.tell(done)
