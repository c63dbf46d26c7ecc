"""The form that follows a person round a shelf with a meter: one line, spot after spot."""

from collections.abc import Mapping

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import Input, Static

from logbook.actions.room.light import SurveyDraft
from logbook.growing.measures import Units, amount
from logbook.growing.quantities import LAMP_HEIGHT, LUX, PPFD
from logbook.growing.room.light import Grid, Spot, from_lux, lamp_kind, odd_reading, read_grid
from logbook.text import Refused, clean
from logbook.ui.forms.asking import Question
from logbook.ui.light_drawing import spot_name
from logbook.ui.widgets.form_lines import Field
from logbook.ui.widgets.line_input import LineInput


class MeterForm(Question[SurveyDraft]):
    """Asks for the spots, the height, the meter, then each spot; Enter goes on, ↑ goes back one.

    What was typed before can be taken up: the form goes on at the last line that holds something.
    """

    BINDINGS = [
        Binding("up", "one_back", "back one", priority=True),
        Binding("f9", "finish", "finish", id="save", priority=True),
    ]

    def __init__(self, place: str, units: Units, offers: Mapping[str, str] | None = None) -> None:
        super().__init__(f"Light on {place}", "enter next   ↑ back one   {save} finish   esc back")
        self.place, self.units = place, units
        self.offers = dict(offers or {})
        self.answers: dict[str, str] = {}
        self.at = 0
        self.doubted = False
        """Whether it was asked about a reading far outside the others."""

    def texts(self) -> Mapping[str, str]:
        """What was answered, and what stands in the line unless it is only offered."""
        name, text = self.fields()[self.at].name, self.query_one(Input).value
        if not text.strip() or text == self.answers.get(name, self.offers.get(name)):
            return self.answers
        return {**self.answers, name: text}

    def take_up(self, texts: Mapping[str, str]) -> None:
        self.answers = {name: clean(text, lines=False) for name, text in texts.items()}

    def compose_answer(self) -> ComposeResult:
        yield Static(Content(""), id="so-far")
        yield Static(Content(""), id="ask-now")
        yield LineInput("", select_on_focus=False)

    def on_mount(self) -> None:
        """Begin at the last line that holds something, which may be typed by half."""
        answered = [self.answers.get(field.name) for field in self.fields()]
        self.at = max((at for at, text in enumerate(answered) if text), default=0)
        self.ask()

    @property
    def grid(self) -> Grid:
        """The spots as answered, or three from front to back."""
        try:
            return read_grid(self.answers.get("grid", "3"))
        except Refused:
            return Grid(3, 1)

    @property
    def lamp(self) -> str:
        """The kind of lamp that a lux meter is read under; '' for a meter of PPFD."""
        return self.answers.get("meter", "").strip()

    def fields(self) -> tuple[Field, ...]:
        grid, unit = self.grid, "lux" if self.lamp else "µmol/m²/s"
        return (
            Field("grid", "Spots: 3 = front, middle, back; or rows x columns, like 2x4",
                  read=read_grid),
            Field("height", "From the trays to the lamp, like 21 cm; empty if not measured",
                  read=lambda text: LAMP_HEIGHT.read(text, self.units), optional=True),
            Field("meter", "Meter: empty for PPFD; for a lux meter, the kind of lamp, like white LED",
                  read=lamp_kind, optional=True),
            *(
                Field(f"{row},{column}",
                      f"{spot_name(row, column, grid)}: {unit} (empty: left out)", read=self._spot,
                      optional=True)
                for row in range(1, grid.rows + 1)
                for column in range(1, grid.columns + 1)
            ),
        )  # fmt: skip

    def _spot(self, text: str) -> float:
        if self.lamp:
            from_lux(LUX.read(text), lamp_kind(self.lamp))
            return LUX.read(text)
        if amount(text, PPFD.name).unit.casefold() in ("lx", "lux"):
            raise Refused(
                "That looks like lux: go back with ↑ and name the lamp on the meter's line."
            )
        return PPFD.read(text)

    def ask(self) -> None:
        fields = self.fields()
        field = fields[self.at]
        self.query_one("#ask-now", Static).update(Content(field.label))
        read = [self.answers[each.name] or "·" for each in fields[3:] if each.name in self.answers]
        self.query_one("#so-far", Static).update(Content("  ".join(read)))
        line = self.query_one(Input)
        line.value = self.answers.get(field.name, self.offers.get(field.name, ""))
        line.cursor_position = len(line.value)
        self.complain("")

    @on(Input.Submitted)
    def take(self, event: Input.Submitted) -> None:
        event.stop()
        if not self._answer(event.value):
            return
        if self.at + 1 < len(self.fields()):
            self.at += 1
            self.ask()
        else:
            self._end()

    def _answer(self, text: str) -> bool:
        field = self.fields()[self.at]
        try:
            field.value(text)
        except Refused as refused:
            self.complain(str(refused))
            return False
        self.answers[field.name] = text.strip()
        return True

    def action_one_back(self) -> None:
        if self.at > 0:
            self.at -= 1
            self.ask()

    def action_finish(self) -> None:
        if self._answer(self.query_one(Input).value):
            self._end()

    def _end(self) -> None:
        values = {
            each.name: each.value(self.answers.get(each.name, "")) for each in self.fields()[1:]
        }
        spots = tuple(
            Spot(int(name.partition(",")[0]), int(name.partition(",")[2]), value)
            for name, value in values.items()
            if "," in name and value is not None
        )
        if not spots:
            self.complain("No spot has a reading yet; esc goes back.")
            return
        odd = None if self.doubted else odd_reading(spots)
        if odd is not None:
            self.doubted, name = True, f"{odd[0].row},{odd[0].column}"
            self.at = next(at for at, each in enumerate(self.fields()) if each.name == name)
            self.ask()
            self.complain(f"{odd[1]} Enter accepts it.")
            return
        self.end(SurveyDraft(self.place, self.grid, spots, values["height"], self.lamp))
