"""The question of a strike: the reason, and what is right in the entry's place."""

import asyncio
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from logbook.actions.book import Book
from logbook.actions.crops.templates import list_templates
from logbook.actions.room.odd import odd_water
from logbook.actions.trays.done import Done
from logbook.actions.trays.entry_lines import Line
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.striking import strike
from logbook.growing.kinds import kind_of
from logbook.growing.measures import grams
from logbook.growing.numbers import parse_numbers
from logbook.growing.quantities import WATER
from logbook.growing.room.water import WaterReading
from logbook.growing.when import parse_when
from logbook.text import clean, clean_name
from logbook.ui.drafts import answer_to
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.forms.readings import asked_once
from logbook.ui.screen import LogScreen
from logbook.ui.widgets.form_lines import Field

Struck = tuple[str, Changes]


class StrikeForm(AskForm[Struck]):
    """Most strikes have nothing right in their place, so Enter strikes from any line."""

    enter_saves = True

    def __init__(self, asked: str, line: Line, book: Book, crops: Sequence[str]) -> None:
        needed, right = "Please give a reason; one word will do.", _right(line, book, crops)
        fields = (Field("why", "why", "one word will do", needed=needed), *right)
        super().__init__(asked, fields, _struck)
        below = "   ↓ to correct it" if right else ""
        self.hint = f"enter strikes it out{below}   esc back"


def _struck(values: Mapping[str, Any]) -> Struck:
    changes = {name: value for name, value in values.items() if name != "why"}
    return values["why"], Changes(**changes)


def _right(line: Line, book: Book, crops: Sequence[str]) -> tuple[Field, ...]:
    """A line for each part that an entry of its kind may say differently in one line."""
    kind, now, zone, units = kind_of(line.kind), book.now(), book.zone, book.units
    weight = (
        ("right seed per tray", "like 40g") if kind.before_sowing else ("right weight", "like 238g")
    )
    reads: dict[str, tuple[str, str, Callable[[str], Any]]] = {
        "template": ("right crop", "right completes", lambda text: clean_name(text, "crop")),
        "grams": (*weight, lambda text: grams(text, "weight", units)),
        "amount_ml": ("right water per tray", "like 300ml", lambda text: WATER.read(text, units)),
        "note": ("right words", "", clean),
        "numbers": ("right trays", "like 101 103-105", parse_numbers),
        "place": ("right place", "like 2/3", lambda text: clean_name(text, "place")),
        "lot": ("right seed lot", "", lambda text: clean(text, lines=False)),
        "at": ("right time", "like 07:30", lambda text: parse_when(text, now, zone)),
    }  # fmt: skip
    takes = [name for name in reads if kind.replaced and name in kind.takes]
    return tuple(
        Field(name, reads[name][0], reads[name][1], read=reads[name][2], optional=True,
              offers=crops if name == "template" else ())
        for name in takes
    )  # fmt: skip


async def ask_strike(screen: LogScreen, asked: str, line: Line, then: str = "") -> None:
    """Ask why an entry is wrong and what is right; strike it, or write the right one in its place."""

    def act(book: Book, struck: Struck) -> Done:
        why, right = struck
        return (
            replace_entry(book, line.id, why, right)
            if right.filled()
            else strike(book, line.id, why)
        )

    def odd(book: Book, struck: Struck) -> str:
        amount = struck[1].amount_ml
        given = WaterReading(millilitres=amount)
        return "" if amount is None else odd_water(book, given, line.names, at=line.at)

    crops = await asyncio.to_thread(list_templates, screen.book)
    form = StrikeForm(asked, line, screen.book, sorted({each.label() for each in crops}))
    done = await screen.ask_to_write(form, asked_once(odd, act), answer_to(asked))
    screen.tell(done, then)
