"""The form that follows a person round a shelf with a meter: one line, spot after spot."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import Input, Static

from logbook.growing.light import from_lux, lamp_kind
from logbook.growing.measures import Units, amount
from logbook.growing.quantities import LAMP_HEIGHT, LUX, PPFD
from logbook.growing.spots import Grid, Spot
from logbook.text import Refused, clean
from logbook.ui.asking import Question
from logbook.ui.light_drawing import spot_name
from logbook.ui.widgets.line_input import LineInput

_GRID = re.compile(r"(\d{1,3})(?:\s*[x×*]\s*(\d{1,3}))?")
_LUX = ("lx", "lux")


@dataclass(frozen=True, slots=True)
class Metered:
    """What the walk gave: the grid, the readings, mm from tray to lamp, the lamp of a lux meter."""

    grid: Grid
    spots: tuple[Spot, ...]
    height_mm: float | None
    lux_lamp: str


def read_grid(text: str) -> Grid:
    """Read "3" as three spots from front to back, "2x4" as rows × columns; raise Refused."""
    found = _GRID.fullmatch(clean(text, lines=False))
    if not found:
        raise Refused("Write 3 for front, middle and back, or rows x columns like 2x4.")
    return Grid(int(found[1]), int(found[2] or 1))


class MeterForm(Question[Metered]):
    """Asks for the spots, the height, the meter, then each spot; Enter goes on, ↑ goes back one.

    What was typed before can be taken up: the form goes on at the last line that holds something.
    """

    BINDINGS = [
        Binding("up", "one_back", "back one", priority=True),
        Binding("f9", "finish", "finish", id="save", priority=True),
    ]

    def __init__(
        self,
        place: str,
        units: Units,
        offers: Mapping[str, str] | None = None,
    ) -> None:
        """Take the shelf and texts to offer per line."""
        super().__init__(f"Light on {place}", "enter next   ↑ back one   {save} finish   esc back")
        self.units = units
        self.offers = dict(offers or {})
        self.answers: dict[str, str] = {}
        self.at = 0

    def texts(self) -> Mapping[str, str]:
        """Give what was answered, and what stands in the line unless it is only offered."""
        name, text = self.steps()[self.at], self.query_one(Input).value
        if not text.strip() or text == self.answers.get(name, self.offers.get(name)):
            return self.answers
        return {**self.answers, name: text}

    def take_up(self, texts: Mapping[str, str]) -> None:
        """Begin with what was typed before."""
        self.answers = {name: clean(text, lines=False) for name, text in texts.items()}

    def compose_answer(self) -> ComposeResult:
        """Give what was read so far and the line."""
        yield Static(Content(""), id="so-far")
        yield Static(Content(""), id="ask-now")
        line = LineInput("", select_on_focus=False)
        line.cursor_blink = False
        yield line

    def on_mount(self) -> None:
        """Begin at the last line that holds something, which may be typed by half."""
        steps = self.steps()
        self.at = max((at for at, name in enumerate(steps) if self.answers.get(name)), default=0)
        self.ask()

    # the lines, in order

    @property
    def grid(self) -> Grid:
        """The spots as answered, or three from front to back."""
        try:
            return read_grid(self.answers.get("grid", "3"))
        except Refused:
            return Grid(3, 1)

    def steps(self) -> list[str]:
        """Name the lines: the spots, the height, the meter, then every spot from the front left."""
        grid = self.grid
        spots = [f"{r},{c}" for r in range(1, grid.rows + 1) for c in range(1, grid.columns + 1)]
        return ["grid", "height", "meter", *spots]

    def ask(self) -> None:
        """Show the line that is asked now, with what was answered or is offered."""
        name = self.steps()[self.at]
        words = {
            "grid": "Spots: 3 = front, middle, back; or rows x columns, like 2x4",
            "height": "From the trays to the lamp, like 21 cm; empty when not measured",
            "meter": "Meter: empty for PPFD; for a lux meter the kind of lamp, like white LED",
        }
        if name in words:
            asked = words[name]
        else:
            row, column = (int(each) for each in name.split(","))
            unit = "lux" if self.answers.get("meter", "").strip() else "µmol/m²/s"
            asked = f"{spot_name(row, column, self.grid)}: {unit} (empty: left out)"
        self.query_one("#ask-now", Static).update(Content(asked))
        read = [self.answers[step] or "·" for step in self.steps()[3:] if step in self.answers]
        self.query_one("#so-far", Static).update(Content("  ".join(read)))
        line = self.query_one(Input)
        line.value = self.answers.get(name, self.offers.get(name, ""))
        line.cursor_position = len(line.value)
        self.complain("")

    @on(Input.Submitted)
    def take(self, event: Input.Submitted) -> None:
        """Take the line and go on; after the last spot the form ends."""
        event.stop()
        if not self._answer(event.value):
            return
        if self.at + 1 < len(self.steps()):
            self.at += 1
            self.ask()
        else:
            self._end()

    def _answer(self, text: str) -> bool:
        name = self.steps()[self.at]
        try:
            self._read(name, text)
        except Refused as refused:
            self.complain(str(refused))
            return False
        self.answers[name] = text.strip()
        return True

    def _read(self, name: str, text: str) -> object:
        if name == "grid":
            return read_grid(text)
        if not text.strip():
            return None
        if name == "height":
            return LAMP_HEIGHT.read(text, self.units)
        if name == "meter":
            return lamp_kind(text)
        return self._value(text)

    def _value(self, text: str) -> float:
        lamp = self.answers.get("meter", "").strip()
        if not lamp:
            if amount(text, "light reading").unit.casefold() in _LUX:
                raise Refused("That is lux: go back with ↑ and name the lamp at the meter's line.")
            return PPFD.read(text)
        value = LUX.read(text)
        from_lux(value, lamp_kind(lamp))
        return value

    def action_one_back(self) -> None:
        """Go back a line; what was answered there stands in it."""
        if self.at > 0:
            self.at -= 1
            self.ask()

    def action_finish(self) -> None:
        """End with the spots read so far."""
        if self._answer(self.query_one(Input).value):
            self._end()

    def _end(self) -> None:
        grid = self.grid
        spots = []
        for name in self.steps()[3:]:
            if self.answers.get(name, "").strip():
                row, column = (int(each) for each in name.split(","))
                spots.append(Spot(row, column, self._value(self.answers[name])))
        if not spots:
            self.complain("No spot has a reading yet; esc goes back.")
            return
        height = self.answers.get("height", "").strip()
        self.end(
            Metered(
                grid,
                tuple(spots),
                LAMP_HEIGHT.optional(height, self.units),
                self.answers.get("meter", "").strip(),
            )
        )
