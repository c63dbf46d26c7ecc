"""The form of a look: a few short lines, each of which may stay empty."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from logbook.growing.looks import MOULDS, Look, checked_look
from logbook.growing.measures import Units
from logbook.growing.quantities import EMERGED, HEIGHT
from logbook.text import Refused, clean, clean_note
from logbook.ui.asking import Question
from logbook.ui.widgets.line_input import LineInput


@dataclass(frozen=True, slots=True)
class Seen:
    """What the form gives: the look and a free note."""

    look: Look
    note: str


def yes_no(text: str, what: str) -> bool | None:
    """Read y or n; None for nothing; raise Refused otherwise."""
    word = clean(text, lines=False).casefold()
    if not word:
        return None
    if word in ("y", "yes", "j", "1", "+"):
        return True
    if word in ("n", "no", "0", "-"):
        return False
    raise Refused(f"{what}: write y or n, or leave it empty.")


def _mould(text: str) -> tuple[str, str]:
    word, _, where = clean(text, lines=False).partition(" ")
    word = word.casefold()
    short = {"n": "none", "no": "none", "s": "spot", "y": "spot", "yes": "spot"}
    word = short.get(word, word)
    if word and word not in MOULDS:
        raise Refused("Mould: write none, spot or spread, and where: spot left corner.")
    return word, where.strip()


def read_look(texts: Mapping[str, str], sign: str, units: Units) -> Seen:
    """Read the lines of a look by their names; raise Refused about the first that is wrong."""
    seen = Look()
    readers: dict[str, Callable[[str], dict[str, object]]] = {
        "emerged": lambda text: {"emerged_percent": EMERGED.read(text)},
        "height": lambda text: {"height_mm": HEIGHT.read(text, units)},
        "mould": lambda text: dict(zip(("mould", "mould_where"), _mould(text), strict=True)),
        "wilting": lambda text: {"wilting": yes_no(text, "Wilting")},
        "cotyledons": lambda text: {"cotyledons_open": yes_no(text, "Seed leaves open")},
        "leaves": lambda text: {"true_leaves": yes_no(text, "First true leaves")},
        "stem": lambda text: {"stem_colour": clean(text, lines=False)},
        "hulls": lambda text: {"hulls_on": yes_no(text, "Hulls")},
        "uneven": lambda text: {"uneven": clean(text, lines=False)},
        "sign": lambda text: {"sign": sign if yes_no(text, "Sign") else ""},
    }
    for name, reader in readers.items():
        text = texts.get(name, "")
        if text.strip():
            try:
                seen = replace(seen, **reader(text))  # type: ignore[arg-type]
            except Refused as refused:
                raise Refused(str(refused), about=name) from refused
    return Seen(checked_look(seen), clean_note(texts.get("note", "")))


class LookForm(Question[Seen]):
    """Asks what is seen. Enter goes down and saves at the end; F9 saves at once."""

    BINDINGS = [
        Binding("f9", "save", "save", id="save", priority=True),
        Binding("down", "app.focus_next", "next", priority=True),
        Binding("up", "app.focus_previous", "previous", priority=True),
    ]

    def __init__(self, asked: str, sign: str, units: Units) -> None:
        """Take what is asked, the crop's sign to cut, and the units of lengths."""
        super().__init__(asked, "enter next, saves at the end   {save} save   esc back")
        self.sign = sign
        self.units = units
        self.start: Mapping[str, str] = {}

    def texts(self) -> Mapping[str, str]:
        """Give the lines by their names."""
        return {name: self.text(name) for name, _, _ in self.fields()}

    def take_up(self, texts: Mapping[str, str]) -> None:
        """Begin with what was typed before."""
        self.start = {name: clean(text, lines=False) for name, text in texts.items()}

    def fields(self) -> tuple[tuple[str, str, str], ...]:
        """Give (name, label, hint) of each line."""
        height = "cm, like 4" if self.units == "metric" else "in, like 1.5"
        sign = (("sign", f"sign: {self.sign}"[:26], "y: cut now"),) if self.sign else ()
        return (
            *sign,
            ("emerged", "emerged %", "0–100"),
            ("height", "height", height),
            ("mould", "mould", "none, spot, spread + where"),
            ("wilting", "wilting", "y or n"),
            ("cotyledons", "seed leaves open", "y or n"),
            ("leaves", "first true leaves", "y or n"),
            ("stem", "stem colour", "own words"),
            ("hulls", "hulls still on", "y or n"),
            ("uneven", "uneven spots", "where"),
            ("note", "note", "own words"),
        )

    def compose_answer(self) -> ComposeResult:
        """Give the lines."""
        with VerticalScroll(classes="look-fields", can_focus=False) as scroll:
            scroll.styles.height = "auto"
            scroll.styles.max_height = "60vh"
            for name, label, hint in self.fields():
                with Horizontal(classes="field"):
                    yield Static(Content(label), classes="label")
                    line = LineInput(self.start.get(name, ""), id=f"look-{name}")
                    line.cursor_blink = False
                    yield line
                    yield Static(Content(hint), classes="note")

    def text(self, name: str) -> str:
        """Give what was typed in a line; '' for a line that is not asked."""
        found = self.query(f"#look-{name}")
        return found.first(Input).value if found else ""

    @on(Input.Submitted)
    def next_line(self, event: Input.Submitted) -> None:
        """Go down a line; save at the last."""
        event.stop()
        if event.input.id == "look-note":
            self.action_save()
        else:
            self.focus_next()

    def action_save(self) -> None:
        """End with what was seen, or say what is wrong."""
        try:
            seen = read_look(self.texts(), self.sign, self.units)
        except Refused as refused:
            if refused.about:
                self.query_one(f"#look-{refused.about}").focus()
            self.complain(str(refused))
            return
        self.end(seen)
