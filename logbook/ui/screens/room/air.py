"""Air: what it is now, how it went by day and night, whether it was damp for too long; water."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from operator import attrgetter

from rich.cells import cell_len
from textual import on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.room.air import AirView, air_at, air_places, batch_air
from logbook.actions.room.water import WaterLine, list_water, water_words
from logbook.growing.days import clock_words, day_of, day_words, wall
from logbook.growing.measures import number_words
from logbook.growing.room.air import DAMP_VPD_KPA, LONGEST_HOLD, AirReading
from logbook.growing.room.air_table import air_columns, mean_rows, reading_row
from logbook.growing.table import table
from logbook.growing.wall_hours import runs
from logbook.text import Refused, clean, plural
from logbook.ui.charts import LEAST_HEIGHT, line_chart, under_each_other
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import AirSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.walk_list import ShortList, WalkList
from logbook.ways import Way, in_shell

SPANS = ((24.0, "a day"), (7 * 24.0, "a week"), (30 * 24.0, "30 days"))
DRAWN: dict[str, tuple[str, Callable[[AirReading], float]]] = {
    "temperature": ("°C", attrgetter("celsius")),
    "humidity": ("% humidity", attrgetter("humidity")),
    "VPD": ("kPa VPD", attrgetter("vpd_kpa")),
}
"""What the chart may show: its unit and its value."""
MOST_PLACES, LEAST_FACTS = 3, 3
"""How many lines the places may take with their head, and how many stay for the facts beside a chart."""
ROOM_FOR_TWO = 18
"""Lines of the screen's body from which two charts stand one below the other."""
DARK_SHADE = "░"
WATER_LINES = 3
"""How many readings of the water are shown, the newest first."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The places that have readings, the air of one of them or of a batch's life, and the water."""

    places: tuple[tuple[str, AirReading], ...]
    air: AirView
    water: tuple[WaterLine, ...]


SHORT_NAME = 12
"""Cells of a place's name that may head the first column of its means."""


class ChartArea(Static):
    """Where the chart stands; it tells when it has another size, for it is drawn to fit."""

    class Sized(Message):
        """The size is another."""

    def on_resize(self) -> None:
        self.post_message(self.Sized())


class AirScreen(LogScreen):
    """Places above, the air of the one under the cursor below, with its chart."""

    heading = "air"
    purpose = (
        "Temperature and humidity: by light and dark, with VPD, hours outside what the crops "
        "want, and a caution after too long damp; below them pH and EC of the water, marked "
        f"where out of range. {{reading}} enters a reading; {Way.AIR_FEED} takes a "
        "sensor's."
    )
    own = ("reading", "span", "drawn", "life", "further", "nearer")
    page_below = "#air-scroll"
    subject: AirSubject = AirSubject()
    view: Shown | None = None
    writes_unread = True

    def __init__(self) -> None:
        super().__init__()
        self.span = 0
        self.drawn = 0
        self.place = ""

    def compose_body(self) -> ComposeResult:
        walk = ShortList()
        walk.styles.max_height = MOST_PLACES
        yield walk
        with VerticalScroll(id="air-scroll", can_focus=False):
            yield Static(Content(""), id="air-facts", classes="plain")
        yield ChartArea(Content(""), id="air-chart", classes="plain")

    def on_screen_resume(self) -> None:
        """Begin at the place that was asked for."""
        self.place = self.subject.place or self.place

    def load(self, book: Book) -> Shown:
        places = tuple(air_places(book))
        water = tuple(reversed(list_water(book)[-WATER_LINES:]))
        if self.subject.batch is not None:
            return Shown(places, batch_air(book, self.subject.batch), water)
        known = [path for path, _ in places]
        place = self.place or (known[0] if known else "")
        return Shown(places, air_at(book, place, hours=SPANS[self.span][0]), water)

    def draw(self, view: Shown) -> None:
        air = view.air
        self.counts = "a batch's life" if self.subject.batch is not None else SPANS[self.span][1]
        columns = air_columns("place", "last", self.book.units)
        rows = [reading_row(path, one, self.moment(one.at)) for path, one in view.places]
        self.walk.show(table_rows(columns, rows, self.columns - 4, lambda row: row.name))
        self.walk.go_to_key(air.source)
        facts = [self._facts(air), *self._water(view.water)]
        self.query_one("#air-facts", Static).update(Content("\n").join(facts))
        self.call_after_refresh(self._draw_chart)

    def _facts(self, air: AirView) -> Content:
        book, newest = self.book, air.newest
        if newest is None:
            enters = self.keyed("{reading} enters")
            return Content(
                f"{air.place}: no reading in {SPANS[self.span][1]}. {enters} one; a sensor's "
                f"come through {in_shell(str(Way.AIR_FEED))}."
            )
        head = air.place if air.source == air.place else f"{air.place}, measured at {air.source}"
        short = cell_len(head) <= SHORT_NAME
        columns = air_columns(head if short else "", "", book.units)
        rows = mean_rows(air.means.day, air.means.night)
        if self.subject.batch is not None:
            rows.insert(0, reading_row("last", newest, ""))
        drawn = table(columns, rows, self.columns - 4, cell_len)
        lines = [
            *([] if short and drawn.rows else [Content.styled(head, "bold $primary")]),
            *(
                Content.styled(line, "bold $primary" if short else "$text-past")
                for line in drawn.heads
            ),
            *map(Content, drawn.rows),
        ]
        if air.caution is not None:
            since = self.moment(air.caution.since)
            until = clock_words(air.caution.until, book.zone)
            lines.append(Content.styled(f"▌ {since} to {until}: {air.caution.words}", "$warning"))
        lines += [
            Content.styled(crop.words, "" if crop.as_wanted else "$warning") for crop in air.crops
        ]
        return Content("\n").join(lines)

    def _water(self, shown: tuple[WaterLine, ...]) -> list[Content]:
        lines = [Content.styled("Water", "bold $primary")] if shown else []
        for one in shown:
            said = f"{self.moment(one.at)}  {one.where}  {water_words(one.reading)}"
            lines.append(Content(said))
            lines += [Content.styled(f"  {mark}", "$warning") for mark in one.marks]
        return lines

    @on(ChartArea.Sized)
    def _draw_chart(self) -> None:
        if self.view is None or not self.stands:
            return
        chart = self.query_one("#air-chart", Static)
        self._share_out()
        air = self.view.air
        text = ""
        if air.newest is not None:
            shades = air.lit is not None and chart.size.height - 2 >= LEAST_HEIGHT
            width, height = max(0, self.app.size.width - 2), chart.size.height - 1 - shades
            shown = [*DRAWN, *DRAWN][self.drawn :][: 2 if height >= 2 * LEAST_HEIGHT else 1]
            following = [*DRAWN, *DRAWN][self.drawn + 1]
            heads = "   ".join(self._head(air, name) for name in shown)
            shaded = f"   {DARK_SHADE} dark" if shades else ""
            head = f"{heads}{shaded}   {self.logbook.commands['drawn'].key_words}: {following}"
            charts = [
                partial(self._one_chart, air, name, ticks=name == shown[-1]) for name in shown
            ]
            body, margin = under_each_other(charts, width, height)
            dark = self._dark(air, margin, width) if shades else ""
            text = "\n".join(filter(None, (head, body, dark))) if body else ""
        show_once(chart, Content(text))

    def _unit(self, name: str) -> tuple[str, Callable[[AirReading], float]]:
        if name == "temperature" and self.book.units == "us":
            return "°F", lambda one: one.celsius * 1.8 + 32
        return DRAWN[name]

    def _one_chart(self, air: AirView, name: str, width: int, height: int, *, ticks: bool) -> str:
        value = self._unit(name)[1]
        return line_chart(
            [(one.at.timestamp(), value(one)) for one in air.readings], width, height,
            span=(air.start.timestamp(), air.end.timestamp()),
            ticks=self._ticks(air) if ticks else (),
            levels=self._limits(air, name),
            gap=LONGEST_HOLD.total_seconds() * (1 if self.span == 0 else 3),
        )  # fmt: skip

    def _head(self, air: AirView, name: str) -> str:
        unit, limits = self._unit(name)[0], self._limits(air, name)
        wanted = "–".join(number_words(each, 1) for each in limits)
        if name == "VPD":
            return f"{unit}, damp under {wanted}"
        return f"{unit}{' ' if self.narrow else ', wanted '}{wanted}" if limits else unit

    def _limits(self, air: AirView, name: str) -> tuple[float, ...]:
        if name == "VPD":
            return (DAMP_VPD_KPA,)
        if name == "humidity":
            return air.humidity_limits
        us = self.book.units == "us"
        return tuple(each * 1.8 + 32 if us else each for each in air.celsius_limits)

    def _dark(self, air: AirView, margin: int, width: int) -> str:
        """A line that shades the hours without light; '' where no lamps are known."""
        if air.lit is None:
            return ""
        lit = list(runs(air.lit, air.start, air.end, self.book.zone))
        cells = width - margin
        moments = (air.start + (air.end - air.start) * (at + 0.5) / cells for at in range(cells))
        shades = (
            " " if any(begin <= at < end for begin, end in lit) else DARK_SHADE for at in moments
        )
        return "".join([" " * margin, *shades]).rstrip()

    def _share_out(self) -> None:
        """Leave the chart the lines that it needs, where the screen is short."""
        height = self.query_one("#body").size.height
        if self.view is None or not height:
            return
        least = LEAST_HEIGHT * 2 + 2 if height >= ROOM_FOR_TWO else LEAST_HEIGHT + 1
        spare = height - min(MOST_PLACES, len(self.view.places) + 1) - least
        most = int(height * 0.55)
        facts = self.query_one("#air-scroll")
        facts.styles.max_height = min(most, spare) if spare >= LEAST_FACTS else most

    def _ticks(self, air: AirView) -> list[tuple[float, str]]:
        zone = self.book.zone
        days = (air.end - air.start) / timedelta(days=1)
        first = day_of(air.start, zone)
        step = 6 if self.narrow else 3
        if days > 2:
            step = 24 * max(1, round(days / (4 if self.narrow else 8)))
        ticks = []
        for hour in range(0, 24 * (int(days) + 2), step):
            at = wall(first + timedelta(days=hour // 24), hour % 24 * 60, zone)
            words = clock_words(at, zone) if days <= 2 else day_words(day_of(at, zone))[:6].strip()
            ticks.append((at.timestamp(), words))
        return ticks

    def here(self) -> tuple[tuple[int, ...], str]:
        if self.subject.batch is not None or self.view is None:
            return (), self.place
        return (), self.view.air.place or self.place

    @on(WalkList.Moved)
    def moved(self, event: WalkList.Moved) -> None:
        if self.view is not None and event.key and event.key != self.view.air.source:
            self.place = event.key
            self.subject = AirSubject(event.key)
            self.refresh_view()

    def does(self, name: str) -> bool:
        return super().does(name) and (
            name != "drawn" or bool(self.view and self.view.air.readings)
        )

    def action_span(self) -> None:
        if self.subject.batch is not None:
            self.subject = AirSubject(self.place)
        else:
            self.span = (self.span + 1) % len(SPANS)
        self.refresh_view()

    def action_drawn(self) -> None:
        self.drawn = (self.drawn + 1) % len(DRAWN)
        self._draw_chart()

    @work
    async def action_life(self) -> None:

        def read(text: str) -> int:
            number = clean(text, lines=False)
            if not number.isdecimal() or len(number) > 9:
                raise Refused("Batches are numbered, like 12.")
            return int(number)

        batch = await self.ask_line("The air of which batch?", read, hint="enter show   esc back")
        if batch is not None:
            self.subject = AirSubject(self.place, batch)
            await self.reload()
            if self.view is not None and self.subject.batch is not None:
                self.say(f"{plural(len(self.view.air.readings), 'reading')} of batch {batch}.")
