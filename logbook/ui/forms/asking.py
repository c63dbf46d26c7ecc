"""Questions: a strip at the bottom that asks one thing and gives the answer back.

Each is a modal screen with a typed answer, awaited in straight-line code; None means that the
grower went back. One that is asked by `LogScreen.ask_to_write` stays until its answer is in the
book, so that what was typed is still there when the book cannot take it.
"""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import TypeVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Input, Static, TextArea

from logbook.text import Refused, clean
from logbook.ui.columns import whole_hints
from logbook.ui.command import Command
from logbook.ui.commands import COMMANDS, keyed
from logbook.ui.frame import Frame
from logbook.ui.sitting import Sitting
from logbook.ui.widgets.form_lines import FormInput, FormNote, LineDone
from logbook.ui.widgets.offer_list import OfferList
from logbook.ui.widgets.walk_list import Row, WalkList
from logbook.ways import on_screens

Answer = TypeVar("Answer")


class Question(ModalScreen[Answer | None]):
    """The base of all questions: a strip with what is asked, and room for what is wrong."""

    BINDINGS = [
        Binding("escape", "go_back", "back", id="back"),
        Binding("question_mark,f1", "app.help", "help", id="help"),
    ]
    HORIZONTAL_BREAKPOINTS = Frame.HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = Frame.VERTICAL_BREAKPOINTS
    AUTO_FOCUS = "Input, TextArea, WalkList"

    def __init__(self, asked: str, hint: str = "") -> None:
        super().__init__()
        self.asked = asked
        self.hint = hint
        self.keep: Callable[[Mapping[str, str]], None] | None = None
        """What keeps the texts by name on every change; no texts when there is nothing to keep."""
        self.write: Callable[[Answer], Awaitable[None]] | None = None
        """What writes the answer before the question ends, or raises Refused."""
        self.writing = False
        self.may_turn_back = False
        """Whether another question was before it, to which ↑ goes back."""
        self.turned_back = False

    @property
    def hints(self) -> Sequence[tuple[str, str]]:
        """The lines and what may be written in each, for the help."""
        return ()

    def texts(self) -> Mapping[str, str]:
        """What stands in the lines, by their names in the draft."""
        return {}

    def offered(self) -> Mapping[str, str]:
        """What stood in the lines before anything was typed; the same is not kept."""
        return {}

    def take_up(self, texts: Mapping[str, str]) -> None:
        """Begin with what was typed before; to be called before the question is asked."""

    @on(Input.Changed)
    @on(TextArea.Changed)
    def changed(self) -> None:
        if self.keep is not None:
            texts = self.texts()
            self.keep({} if texts == self.offered() else texts)

    def end(self, answer: Answer) -> None:
        """End with the answer; one that is to be written is written first."""
        if self.write is None:
            self.dismiss(answer)
        elif not self.writing:
            self.writing = True
            self.complain("")
            self.write_down(answer)

    @work(group="write")
    async def write_down(self, answer: Answer) -> None:
        """Write the answer and end, or say why it could not be written; what was typed stays."""
        assert self.write is not None  # noqa: S101 - called by end alone
        try:
            await self.write(answer)
        except Refused as refused:
            self.refuse(refused)
            return
        finally:
            self.writing = False
        self.dismiss(answer)

    def compose(self) -> ComposeResult:
        with Vertical(id="strip"):
            yield Static(Content(self.spoken(self.asked)), id="asked")
            yield from self.compose_answer()
            yield Static(Content(""), id="wrong")
            if self.hint:
                yield Static(self._hint, id="hint")

    @property
    def _hint(self) -> Content:
        return Content(whole_hints(self.keyed(self.hint), self.app.size.width - 2))

    def foot_hints(self) -> list[tuple[str, str]]:
        """The keys of the hint and what they do."""
        parts = (each.partition(" ") for each in self.keyed(self.hint).split("   "))
        return [(key, words) for key, _, words in parts if words]

    def on_resize(self) -> None:
        for shown in self.query("#hint").results(Static):
            shown.update(self._hint)

    def spoken(self, text: str) -> str:
        return on_screens(text, lambda words: keyed(words, self._commands))

    def keyed(self, text: str) -> str:
        """Put keys into our own words, as into a hint."""
        return keyed(self.spoken(text), self._commands)

    @property
    def _commands(self) -> Mapping[str, Command]:
        """The commands with the keys that they have here."""
        return self.app.commands if isinstance(self.app, Sitting) else COMMANDS

    def compose_answer(self) -> ComposeResult:
        """The widgets that take the answer."""
        yield from ()

    def complain(self, words: str) -> None:
        """Say what is wrong with the answer; what was typed stays."""
        self.query_one("#wrong", Static).update(Content(self.spoken(words)))

    def refuse(self, refused: Refused) -> None:
        """Say in the question why the book did not take the answer."""
        self.complain(str(refused))

    def action_go_back(self) -> None:
        """Go back without an answer; not while it is being written."""
        if self.writing:
            self.complain("It is being written; wait a moment.")
        else:
            self.dismiss(None)


class AskLine(Question[Answer]):
    """Asks for one line. `read` turns the text into the answer, or raises Refused."""

    BINDINGS = [
        Binding("f9", "take", "save", id="save", priority=True),
        Binding("down", "step(1)", "next"),
        Binding("up", "step(-1)", "previous"),
    ]
    line: FormInput | FormNote

    def __init__(
        self, asked: str, read: Callable[[str], Answer], *, start: str = "", hint: str = "",
        offers: Sequence[str] = (), beside: Mapping[str, str] | None = None, pick: bool = False,
        begun: bool = False,
    ) -> None:  # fmt: skip
        """What reads the answer; typing replaces what stands there, unless it is only `begun`.

        `offers` are listed, with what is said `beside` each; with `pick` a part of one means it.
        """
        super().__init__(asked, hint)
        self.read = read
        self.start = self.first = start
        self.begun = begun
        self.offers, self.beside, self.pick = offers, beside, pick

    def texts(self) -> Mapping[str, str]:
        return {"text": self.line.words}

    def offered(self) -> Mapping[str, str]:
        """What was offered, not what was typed before."""
        return {"text": self.first}

    def take_up(self, texts: Mapping[str, str]) -> None:
        self.start = texts.get("text", self.start)

    def compose_answer(self) -> ComposeResult:
        self.line = FormInput()
        if self.start == self.first and not self.begun:
            self.line.begin(self.start)
        else:
            self.line.put(self.start)
        self.line.offer(self.offers, self.beside, pick=self.pick)
        yield self.line
        if self.offers:
            yield OfferList(Content(""))

    @on(Input.Changed)
    def list_offers(self) -> None:
        for shown in self.query(OfferList):
            shown.show(self.line)

    def on_mount(self) -> None:
        self.list_offers()

    def action_step(self, by: int) -> None:
        if isinstance(self.line, FormInput) and self.line.step(by):
            self.list_offers()
        elif by < 0 and self.may_turn_back and not self.writing:
            self.turned_back = True
            self.dismiss(None)

    @on(LineDone)
    def action_take(self) -> None:
        """End with what is typed, or with the offer that is marked."""
        if isinstance(self.line, FormInput):
            self.line.complete()
        try:
            answer = self.read(self.line.words)
        except Refused as refused:
            self.complain(str(refused))
        else:
            self.end(answer)


def written(refusal: str) -> Callable[[str], str]:
    """What reads a text that may not be empty; else it is refused with this sentence."""

    def read(text: str) -> str:
        words = clean(text)
        if not words:
            raise Refused(refusal)
        return words

    return read


def why_asked(asked: str) -> AskLine[str]:
    """A question for a reason, which may not be empty."""
    why = written("Please give a reason; one word will do.")
    return AskLine(asked, why, hint="enter save   esc back")


class AskText(AskLine[str]):
    """Asks for a text of several lines. Enter saves it, ctrl+j makes a new line."""

    def __init__(self, asked: str) -> None:
        read = written("There is nothing written yet; esc goes back.")
        super().__init__(asked, read, hint="enter save   ctrl+j new line   esc back")

    def compose_answer(self) -> ComposeResult:
        self.line = FormNote(self.start)
        self.line.put(self.start)
        yield self.line


class AskYes(Question[bool]):
    """Asks yes or no: y or Enter, n or Esc."""

    BINDINGS = [Binding("y,enter", "answer(True)", "yes"), Binding("n", "answer(False)", "no")]

    def __init__(self, asked: str, hint: str = "y yes   n no") -> None:
        super().__init__(asked, hint)

    def action_answer(self, yes: bool) -> None:
        """End with the answer; a yes is written first, where it is to be written."""
        if yes:
            self.end(yes)
        else:
            self.dismiss(yes)


class AskSure(AskYes):
    """As AskYes, where a stray Enter is no yes: y or /, n or - (they are on a number pad)."""

    BINDINGS = [
        Binding("y,slash", "answer(True)", "yes"),
        Binding("n,minus", "answer(False)", "no"),
        Binding("enter", "wait", "wait"),
    ]

    def action_wait(self) -> None:
        self.complain("Press y or n: Enter doesn't mean yes here.")


class AskChoice(Question[str]):
    """Asks for one of a list: Enter takes the one under the cursor, its letter takes it at once."""

    def __init__(self, asked: str, choices: Sequence[tuple[str, str, str]], hint: str = "") -> None:
        """Take (answer, letter, words) for each choice."""
        super().__init__(asked, hint)
        self.choices = choices

    def compose_answer(self) -> ComposeResult:
        yield WalkList()

    def on_mount(self) -> None:
        self.query_one(WalkList).show(
            [
                Row(Content.assemble((f"{letter:3}", "bold"), words), answer)
                for answer, letter, words in self.choices
            ]
        )

    @on(WalkList.Selected)
    def take(self, event: WalkList.Selected) -> None:
        self.dismiss(event.key)

    def on_key(self, event: Key) -> None:
        key = event.character or event.key
        letters = {letter.casefold(): answer for answer, letter, _ in reversed(self.choices)}
        letters |= {letter: answer for answer, letter, _ in self.choices}
        found = letters.get(key, letters.get(key.casefold()))
        if found is not None and key:
            event.stop()
            self.dismiss(found)
