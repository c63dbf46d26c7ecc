"""The weigh-in: a till. Tray number, grams, Enter, next."""

import asyncio
from dataclasses import replace
from datetime import datetime

from textual import on, work
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, Static

from logbook.actions.book import Book
from logbook.actions.trays.till import Till, till
from logbook.actions.trays.weighing import weigh
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.till import Typed, parse_till, parted_from_time, trays_so_far
from logbook.growing.when import parse_when
from logbook.text import Refused
from logbook.ui.columns import fit
from logbook.ui.deeds import TrayKeys
from logbook.ui.drafts import Draft
from logbook.ui.forms.asking import AskSure
from logbook.ui.subjects import Chosen, WeighSubject
from logbook.ui.till_drawing import TillDrawing
from logbook.ui.widgets.bars import Rule, show_once
from logbook.ui.widgets.line_input import TillInput
from logbook.ui.widgets.walk_list import Row, WalkList

KIND = "weigh"
"""The kind of the draft of the line."""
HINTS = (
    "Nothing is weighed yet today.",
    "{one} of the tray offered",
    "117 283  another tray (or 117+283)",
    "117 180+140  a sum, 320-38 less tub",
    "117-120 1150  weighed together",
    "117 283 p  part cut (or * for p)",
    "117 283 k  cut, grows again (or **)",
    "283 at 17:40, 283 yesterday 17:40",
)


class WeighScreen(TrayKeys):
    """What was cut today, and a line to type the next weight into."""

    heading = "weigh-in"
    purpose = (
        "Type the weight (g, in a US room oz) and press Enter: it is written for the tray that "
        "is offered, and the "
        "next one is offered. Any other tray: its number, a space, the weight (117 283, or 117+283 "
        "on a number pad). The weight may be a sum: 117 180+140, 320-38 with its tub, +180+140 for "
        "the tray that is offered. "
        "117-120 1150 for trays weighed together, a p or * at the end for a part cut, a k or ** "
        "where it grows again, units as "
        "in 0.28 kg or 10 oz, the time of an earlier cut behind all: 283 at 17:40, or 283 "
        "yesterday 17:40. While the line is empty, letters are keys."
    )
    writes_unread = True
    own = ("write", "offer_after", "offer_before", "undo", "jot", "discard")
    digits_go_to_trays = False
    AUTO_FOCUS = "TillInput"
    DEFAULT_CSS = """
    WeighScreen #roll { height: 1fr; align: left bottom; }
    WeighScreen WalkList { height: auto; max-height: 100%; }
    WeighScreen .plain { color: $text-past; }
    WeighScreen #usual { height: auto; min-height: 1; max-height: 2; color: $foreground; }
    WeighScreen #line { height: 1; padding: 0 1; }
    WeighScreen #offer { width: 6; height: 1; text-style: bold; color: $primary; }
    WeighScreen TillInput { width: 1fr; }
    """
    subject: WeighSubject = WeighSubject()
    view: Till | None = None

    def __init__(self) -> None:
        super().__init__()
        self.offered: int | None = None
        self.wanted: tuple[int, ...] = ()
        self.sent: list[int] = []
        self.written: set[int] = set()
        self.in_hand: dict[str, str] = {}
        """What was entered and is not written yet; with the number of the tray it is for."""
        self.one_by_one = asyncio.Lock()

    def compose_body(self) -> ComposeResult:
        with Vertical(id="roll"):
            walk = WalkList()
            walk.can_focus = False
            yield walk
        yield Static(id="batch", classes="plain")
        yield Rule()
        yield Static(id="left", classes="plain")
        yield Static(id="usual", classes="plain")
        with Horizontal(id="line"):
            yield Static(id="offer")
            yield TillInput()

    def on_screen_resume(self) -> None:
        """Begin with the trays that the round sent, and with what was typed before."""
        if self.subject.trays != self.wanted:
            self.wanted, self.offered = self.subject.trays, None
        kept = self.logbook.drafts.find(Draft(KIND, "", {}).key)
        if kept is not None and not self.in_hand and self.line.put_back(kept.texts.get("line", "")):
            self.offered = int(kept.label) if kept.label.isdecimal() else self.offered
            self.say("This was typed before and is not written yet.")

    def keep(self) -> None:
        """Keep what is typed, or entered and not written yet; nothing of either is let go."""
        text = self.line.value.strip() or " ".join(list(self.in_hand.values())[-1:])
        if text and self.subject.cut_at is not None and parted_from_time(text)[1] is None:
            text += f" at {self.subject.cut_at.astimezone(self.book.zone).isoformat(timespec='minutes')}"
        self.logbook.drafts.keep(Draft(KIND, str(self.offered or ""), {"line": text}))

    def settle(self, text: str) -> None:
        """Note that what was entered is written, or stands in the line again."""
        self.in_hand.pop(text, None)
        self.keep()

    def load(self, book: Book) -> Till:
        return till(book, self.wanted)

    @property
    def line(self) -> TillInput:
        return self.query_one(TillInput)

    @property
    def unsaved(self) -> bool:
        return bool(self.line.value.strip())

    def left(self) -> list[int]:
        return [number for number in self.view.left if number not in self.sent] if self.view else []

    def draw(self, view: Till) -> None:
        left = self.left()
        back = [number for number in left if number in self.written]
        if back:
            self.written -= set(back)
            self.offered = back[0]
        if self.offered not in left:
            self._stay_for_its_tray()
            self.offered = left[0] if left else None
        total = self.grams(view.grams)
        self.counts = f"{len(left)} left to cut   {total} today"
        if self.narrow:
            self.counts = f"{len(left)} left   {total}"
        if self.subject.cut_at is not None and view.chosen:
            self.counts = f"cut {self.moment(self.subject.cut_at)}   {len(left)} left"
        one = "283      grams" if self.book.units == "metric" else "10.1    ounces"
        rows = [Row(self.drawing.roll(line), str(line.entry)) for line in view.lines]
        self.walk.show(rows or [Row(Content(hint.format(one=one))) for hint in HINTS])
        self.walk.action_end(1)
        batch = self.query_one("#batch", Static)
        show_once(batch, Content(self.drawing.batch(view)), layout=True)
        show_once(self.query_one("#left", Static), Content(self._left_words(view)))
        self.draw_offer()

    def _stay_for_its_tray(self) -> None:
        """Put the tray's number before what was typed for it, where somebody else has cut it meanwhile."""
        text, tray = self.line.value.strip(), self.offered
        if text and tray is not None and not trays_so_far(parted_from_time(text)[0]):
            self.line.value = ""
            self.line.put_back(f"{tray} {text.removeprefix('+')}")
            self.say(f"Tray {tray} is no longer to be cut; this was typed for it.", wants=True)

    def does(self, name: str) -> bool:
        left = len(self.left())
        does = {"write": left > 0 or self.unsaved, "offer_after": left > 1, "offer_before": left > 1,
                "undo": bool(self.view and self.view.lines)}  # fmt: skip
        return does.get(name, super().does(name))

    @property
    def drawing(self) -> TillDrawing:
        return TillDrawing(self.columns - 2, self.narrow, self.book.units, self.book.zone)

    def _left_words(self, view: Till) -> str:
        left = self.drawing.left(view, self.sent)
        if not left and not view.trays:
            return self.keyed("No tray is growing; {sow} sows a batch.")
        return left or "No tray is ready to cut. For another, type its number and weight."

    @on(Input.Changed)
    def typed(self) -> None:
        self.keep()
        self.draw_offer()

    def draw_offer(self) -> None:
        if self.view is None:
            return
        text = self.line.value
        named = trays_so_far(parted_from_time(text)[0])
        numbers = named or ((self.offered,) if self.offered is not None else ())
        label = str(self.offered) if self.offered is not None and not named else ""
        show_once(self.query_one("#offer", Static), Content(label))
        usual = self.query_one("#usual", Static)
        words = self.drawing.usual(self.view, numbers, self._typed_so_far(text))
        if not words and numbers and text:
            held = self.view.held.get(numbers[0])
            words = f"{numbers[0]} " + (
                f"is on hold ({held})." if held else "isn't a growing tray."
            )
        grows = str(usual.content).count("\n") != words.count("\n")
        show_once(usual, Content(words), layout=grows)
        unit = "grams" if self.book.units == "metric" else "ounces"
        self.line.placeholder = unit if self.offered is not None else f"tray and {unit}"

    def _typed_so_far(self, text: str) -> Typed | None:
        try:
            return parse_till(parted_from_time(text)[0], self.offered, self.book.units)
        except Refused:
            return None

    def _told(self, when: str | None, typed: Typed) -> datetime | None:
        """The time in the line, else the one that was told for these trays; None for now."""
        if when is not None:
            return parse_when(when, self.book.now(), self.book.zone)
        return self.subject.cut_at if set(typed.numbers) <= set(self.wanted) else None

    def on_key(self, event: Key) -> None:
        """Let Esc empty the line before it leads back."""
        if event.key == "escape" and self.line.value:
            event.stop()
            self.line.value = ""

    async def action_write(self) -> None:
        await self.line.action_submit()

    def action_offer(self, by: int) -> None:
        left = self.left()
        if not left:
            return
        here = left.index(self.offered) if self.offered in left else -by
        self.offered = left[(here + by) % len(left)]
        self.keep()
        self.draw_offer()

    @on(TillInput.Entered)
    def entered(self, event: TillInput.Entered) -> None:
        """Read the line; write it, ask about it, or put it back with what is wrong."""
        line, when = parted_from_time(event.text)
        try:
            typed = parse_till(line, self.offered, self.book.units)
            typed = replace(typed, at=self._told(when, typed))
        except Refused as refused:
            self._refuse(event.text, str(refused))
            return
        named = trays_so_far(line)
        self.in_hand[event.text] = event.text if named else f"{self.offered} {event.text}"
        self.keep()
        if self.view is not None and typed.bare in self.view.left:
            self.ask_which(event.text, typed)
        else:
            self.weigh_if_sure(event.text, typed)

    def _refuse(self, text: str, why: str) -> None:
        if not self.line.put_back(text):
            why = f'"{fit(text, 30)}" is not written. {why}'
        self.say(why, wants=True)

    @work
    async def ask_which(self, text: str, typed: Typed) -> None:
        number = typed.numbers[0]
        words = self.grams(typed.grams)
        if typed.bare == number:
            asked = f"{number} is the tray's own number. Is it the weight too: {words}?"
            other = "type its weight"
        else:
            asked = f"{typed.bare} is also a tray. Is it the weight of tray {number}: {words}?"
            other = f"go to tray {typed.bare}"
        answer = await self.ask(
            AskSure(asked, f"y or /  {words} on tray {number}   n or -  {other}   esc back")
        )
        if answer:
            self.weigh_if_sure(text, typed)
            return
        if answer is None:
            self.line.put_back(text)
        else:
            self.offered = typed.bare
            self.draw_offer()
        self.settle(text)

    def weigh_if_sure(self, text: str, typed: Typed) -> None:
        """Write a weight at once; ask first about one that is hard to believe."""
        asked = self.drawing.doubt(self.view, typed) if self.view is not None else ""
        if asked:
            self.ask_sure(text, typed, asked)
        else:
            self.weigh(text, typed)

    @work
    async def ask_sure(self, text: str, typed: Typed, asked: str) -> None:
        """Ask whether a weight is written; else it stands in the line again."""
        if await self.ask(AskSure(asked, "y or /  write it   n or -  change it")):
            self.weigh(text, typed)
        else:
            self.line.put_back(text)
            self.settle(text)

    @work(group="weigh")
    async def weigh(self, text: str, typed: Typed) -> None:
        """Write a weight; the next tray is offered at once."""
        self.say("")
        offered, order = self.offered, self.left()
        self.sent += typed.numbers
        if offered in typed.numbers:
            here = order.index(offered) if offered in order else 0
            after = [number for number in (*order[here:], *order[:here]) if number in self.left()]
            self.offered = after[0] if after else None
        self._draw_all()
        async with self.one_by_one:
            done = await self.ask_book(
                weigh, list(typed.numbers), typed.grams, part=typed.part, keep=typed.keep,
                at=typed.at,
            )  # fmt: skip
        for number in typed.numbers:
            self.sent.remove(number)
        if done is None:
            if self.line.put_back(text) and offered in typed.numbers:
                self.offered = offered
        else:
            if not typed.part:
                self.written |= set(typed.numbers)
            if typed.at is not None:
                words = f"{numbers_words(typed.numbers)}: {self.grams(typed.grams)}"
                self.say(f"{words}, cut {self.moment(typed.at)}.  {self.undoes}")
            if short := done[-1].notices:
                self.say(" ".join(short), wants=True)
        self.settle(text)
        self._draw_all()

    def chosen(self) -> Chosen | None:
        tray = self.view.trays.get(self.offered or 0) if self.view else None
        return None if tray is None else Chosen((tray.number,), crop=tray.crop, place=tray.place)
