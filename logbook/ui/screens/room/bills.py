"""Lamps and bills: what hangs where, what it costs, what it gave, and what the circuits carry."""

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.room.bill_tables import batch_columns, circuit_columns, shelf_columns
from logbook.actions.room.bills import BatchBill, Bills, ShelfBill, bills, no_one_words
from logbook.actions.room.lamps import CircuitView, hang_lamps, set_circuit, set_tariff
from logbook.growing.currencies import Currency
from logbook.growing.measures import Units, grams_words, hours_words, number_words
from logbook.growing.room.power import WET_ROOM_CAUTIONS
from logbook.text import plural
from logbook.ui.drafts import Draft
from logbook.ui.forms.asking import AskChoice
from logbook.ui.forms.power_forms import circuit_form, lamps_form, tariff_form
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import BatchSubject, BillsSubject, LightSubject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row
from logbook.ways import on_screens

KINDS = (
    ("lamps", "l", "lamps over the selected shelf"),
    ("tariff", "t", "a price per kWh, from a day on"),
    ("circuit", "c", "a circuit and what runs on it"),
)
KIND_OF = {"shelf": "lamps", "circuit": "circuit", "tariff": "tariff"}
"""What is asked for to write a row of such a kind anew."""


class BillsScreen(LogScreen):
    """One list: shelves, circuits, batches and tariffs; what the cursor is on is told below."""

    heading = "lamps and bills"
    purpose = (
        "Lamps, kWh and money by shelf, by tray and by batch, from the hours really lit; and each "
        "circuit against what it should carry for hours. {add} adds lamps, a price or a circuit."
    )
    own = ("open", "add", "edit")
    below = True
    subject: BillsSubject = BillsSubject()
    view: Bills

    def load(self, book: Book) -> Bills:
        return bills(book)

    def draw(self, view: Bills) -> None:
        today = view.today.words(view.money, 1)
        if view.today.known is None:
            self.counts = "" if self.narrow else today
        else:
            self.counts = f"{today.replace(',', '')}/day" if self.narrow else f"per day {today}"
        width, code = self.width, view.money
        rows = [Row(self._sum(view)), Row.head("Lamps", "$secondary")]
        rows += table_rows(
            shelf_columns(code), view.shelves, width, lambda one: f"shelf {one.place.path}", _bare
        )
        if not any(one.lamps for one in view.shelves):
            none = self.keyed("No lamps yet: {add} adds them.")
            rows.append(Row.head(none, "$text-past"))
        circuits = table_rows(
            circuit_columns(), view.circuits, width, lambda one: f"circuit {one.name}",
            lambda one: "" if one.load.within else "$warning",
        )  # fmt: skip
        batches = table_rows(
            batch_columns(code, self.book.units), view.batches, width,
            lambda one: f"batch {one.batch}",
        )  # fmt: skip
        prices = [Row(Content(one.words), f"tariff {one.since}", one) for one in view.tariffs]
        if view.tariffs and (unset := view.money.unset_words):
            prices.insert(0, Row.head(on_screens(unset, self.keyed), "$text-past"))
        parts = (("Circuits", circuits), ("Batches cut last", batches), ("Prices", prices))
        for head, below in parts:
            rows += [Row.head(head, "$secondary"), *below] if below else []
        self.walk.show(rows)

    def _sum(self, view: Bills) -> Content:
        price = view.tariff.words if view.tariff else self.keyed("no price yet: {add} adds it")
        said = f"last {plural(view.days, 'day')}: {view.period.words(view.money, 0)}"
        lost = view.over_no_one.bill
        of_it = (
            f"{said}, of it {lost.cost_words(view.money)} over empty slots" if lost.kwh else said
        )
        room = self.columns - 4
        fits = (one for one in (f"{of_it}   {price}", of_it) if len(one) <= room)
        return Content(next(fits, said))

    def _on(self) -> tuple[str, str]:
        kind, _, name = self.walk.key.partition(" ")
        return kind, name

    def here(self) -> tuple[tuple[int, ...], str]:
        kind, name = self._on()
        return (), name if kind == "shelf" else ""

    def beside(self) -> Content:
        one, lines = self.walk.under, list[Content]()
        if isinstance(one, ShelfBill):
            lines = self._about_shelf(one, self.view.days, self.view.money)
        elif isinstance(one, CircuitView):
            within = one.load.within
            lines = [Content.styled(one.load.words, "" if within else "$warning")]
            lines += [Content(notice) for notice in one.notices]
            minded = one.load.cautions if within else WET_ROOM_CAUTIONS
            lines += [Content.styled(each, "$text-past") for each in minded]
        elif isinstance(one, BatchBill):
            lines = _about_batch(one, self.book.units)
        _, name = self._on()
        return self.told(name, *lines)

    def _about_shelf(self, one: ShelfBill, days: int, money: Currency) -> list[Content]:
        if one.lamps is None:
            return [Content(self.keyed("{edit} writes which lamps hang here."))]
        lines = [Content(one.lamps.words(self.book.units))]
        if one.lamps.draw.volt_amps is not None:
            lines.append(Content(one.lamps.draw.words))
        each = one.cost_per_tray_day
        share = "" if each is None else f", {money.rate(each)} per tray-day"
        lines.append(Content(f"last {plural(days, 'day')}: {one.period.words(money)}{share}"))
        lost = no_one_words(one.over_no_one, money)
        lines += [Content(lost)] if lost else []
        if one.period.unknown_hours >= 1:
            hours = hours_words(one.period.unknown_hours)
            words = f"Lit {hours} before any lamps were entered: not counted."
            lines.append(Content.styled(words, "$text-past"))
        return lines

    def action_open(self) -> None:
        kind, name = self._on()
        if kind == "shelf":
            self.logbook.go(LightSubject(name))
        elif kind == "batch":
            self.logbook.go(BatchSubject(name))
        else:
            self.action_edit()

    def on_screen_resume(self) -> None:
        """Go on with what was being typed when the book was closed."""
        asked, self.subject = self.subject, BillsSubject()
        if asked.kind:
            self.go_on(asked)

    @work
    async def go_on(self, asked: BillsSubject) -> None:
        await self.reload()
        await self._ask_about(asked.kind, asked.name)

    @work
    async def action_add(self) -> None:
        kind = await self.ask(AskChoice("Add", KINDS, "esc back"))
        if kind:
            await self._ask(kind)

    @work
    async def action_edit(self) -> None:
        kind = KIND_OF.get(self._on()[0])
        if kind is None:
            self.say("Select lamps, a circuit or a price first.")
        else:
            await self._ask(kind)

    async def _ask(self, kind: str) -> None:
        on, name = self._on()
        if kind == "lamps" and on != "shelf":
            self.say("Select a shelf first.")
        else:
            await self._ask_about(kind, name if KIND_OF.get(on) == kind != "tariff" else "")

    async def _ask_about(self, kind: str, name: str) -> None:
        today, draft = self.book.today(), Draft(kind, name, {}, (), name)
        if kind == "lamps":
            shelf = next((each for each in self.view.shelves if each.place.path == name), None)
            if shelf is None:
                self.say(f"There is no longer a shelf {name}.")
                return
            done = await self.ask_to_write(
                lamps_form(name, self.book.units, shelf.lamps, today),
                lambda book, lamps: hang_lamps(book, name, lamps),
                draft,
            )
        elif kind == "tariff":
            done = await self.ask_to_write(tariff_form(today), set_tariff, draft)
        else:
            old = next((each for each in self.view.circuits if each.name == name), None)
            done = await self.ask_to_write(circuit_form(old), set_circuit, draft)
        self.tell(done, "")


def _bare(one: ShelfBill) -> str:
    return "" if one.lamps and one.lamps.lamps else "$text-past"


def _about_batch(one: BatchBill, units: Units) -> list[Content]:
    words = (
        f"{plural(one.trays, 'tray')}, {grams_words(one.grams, units)}, {one.use.words(one.money)}"
    )
    lines = [Content(words)]
    parts = one.worth.yield_words(units, " a ")
    if one.mol_m2_per_tray:
        parts.append(f"light of {number_words(one.mol_m2_per_tray)} mol/m² per tray in all")
    parts += filter(None, (one.unmeasured_words, one.growing_words))
    if parts:
        lines.append(Content(", ".join(parts)))
    if one.use.unknown_hours >= 1:
        words = "Some of its lit hours were before any lamps were entered."
        lines.append(Content.styled(words, "$text-past"))
    return lines
