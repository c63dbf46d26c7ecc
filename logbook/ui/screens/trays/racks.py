"""The racks: every shelf with the trays in their slots, to walk through with the arrow keys."""

from collections.abc import Callable

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.trays.rack_views import Racks, RackTray
from logbook.actions.trays.racks import racks
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.chores import WORDS
from logbook.text import plural
from logbook.ui.deeds import TrayKeys
from logbook.ui.frame import PANE, trimmed
from logbook.ui.rack_drawing import Cell
from logbook.ui.subjects import Chosen, LightSubject, Subject, TraySubject
from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.rack_map import RackMap


class RacksScreen(TrayKeys):
    """The drawing of the room."""

    heading = "the racks"
    purpose = (
        "Racks and shelves with their trays: number and crop, then the day (d9 is day 9) and what "
        "is due now. light: under lights; dark: to the dark; ready: may be cut; +1: one more "
        "chore; "
        "▌ late; * marked; · a free slot, where {sow} sows and {move} brings the marked trays."
    )
    own = ("open", "jot", "look", "move", "mark", "discard", "sow", "weigh", "hold")
    view: Racks

    def compose_body(self) -> ComposeResult:
        yield RackMap()
        yield Static(id="detail")

    def load(self, book: Book) -> Racks:
        return racks(book)

    def draw(self, view: Racks) -> None:
        self.query_one(RackMap).show(view)

    @on(RackMap.Moved)
    def moved(self) -> None:
        cell = self.query_one(RackMap).cell
        show_once(self.query_one("#detail", Static), Content(detail_words(cell, self.keyed)))
        shelves = [shelf for rack in self.view.racks for shelf in rack.shelves]
        used = sum(shelf.used for shelf in shelves)
        taken = sum(shelf.slots_used for shelf in shelves)
        slots = sum(shelf.place.slots for shelf in shelves)
        counts = f"{plural(used + len(self.view.loose), 'tray')}   {max(0, slots - taken)} free"
        marked = len(self.query_one(RackMap).marked)
        counts += f"   {marked} marked" if marked else ""
        if counts != self.counts:
            self.counts = counts
            self.draw_head()
        self.draw_beside()
        self.draw_foot()

    @property
    def columns(self) -> int:
        """Racks stand side by side where they have room, so the pane has the rest."""
        return self.app.size.width - PANE - max(0, min(12, (self.app.size.width - 160) // 2))

    def beside(self) -> Subject | None:
        cell = self.query_one(RackMap).cell
        if cell is None:
            return None
        return TraySubject(cell.tray.number) if cell.tray else LightSubject(cell.place)

    def chosen(self) -> Chosen | None:
        """The marked trays, or the tray or free slot under the cursor."""
        shown = self.query_one(RackMap)
        cell = shown.cell
        if shown.marked:
            trays = [each.tray for each in shown.drawing.cells if each.tray is not None]
            mine = [tray for tray in trays if tray.number in shown.marked]
            return Chosen(
                tuple(sorted(shown.marked)),
                sign=_shared([tray.template.sign_to_cut for tray in mine]),
                crop=_shared([tray.crop for tray in mine]),
                to=_free(cell, len(mine)),
            )
        if cell is None:
            return None
        if cell.tray is None:
            return Chosen((), place=cell.place)
        return Chosen(
            (cell.tray.number,), "", "", cell.place, cell.tray.crop, cell.tray.template.sign_to_cut
        )

    def sowing_place(self) -> str:
        cell = self.query_one(RackMap).cell
        return cell.place if cell is not None and cell.tray is None else ""

    def weighing_trays(self) -> tuple[int, ...]:
        """The marked trays, or the one under the cursor when it is due to be cut."""
        shown = self.query_one(RackMap)
        if shown.marked:
            return tuple(sorted(shown.marked))
        tray = shown.cell.tray if shown.cell is not None else None
        return (tray.number,) if tray is not None and "cut" in tray.due else ()

    def line_words(self) -> str:
        return detail_words(self.query_one(RackMap).cell, self.keyed)

    def page_words(self) -> str:
        return trimmed(self.query_one(RackMap).drawing.text)

    @property
    def on_something(self) -> bool:
        cell = self.query_one(RackMap).cell
        return cell is not None and cell.tray is not None

    async def after_writing(self) -> None:
        """Show what the book holds now; the marks have served."""
        await super().after_writing()
        shown = self.query_one(RackMap)
        shown.marked.clear()
        shown.refresh()
        self.moved()

    @work
    async def action_open(self) -> None:
        cell = self.query_one(RackMap).cell
        if cell is None:
            return
        if cell.tray is None:
            self.say(self.keyed("This slot is free; {sow} sows here."))
        else:
            await self.open_tray(cell.tray.number)

    def action_mark(self) -> None:
        if not self.query_one(RackMap).toggle_mark():
            self.say("This slot is free; marks go on trays.")


def _shared(words: list[str]) -> str:
    return words[0] if len(set(words)) == 1 else ""


def _free(cell: Cell | None, trays: int) -> str:
    """The free slot under the cursor, or its shelf for several trays; '' for none."""
    if cell is None or cell.tray is not None:
        return ""
    return f"{cell.place}/{cell.slot}" if trays == 1 else cell.place


def detail_words(cell: Cell | None, keyed: Callable[[str], str]) -> str:
    """Say in one line what the cursor is on; `keyed` puts keys into a sentence."""
    if cell is None:
        return ""
    slot = f" slot {cell.slot}" if cell.slot is not None else ""
    if cell.tray is None:
        return f"free: {keyed('{sow} sows')}   {cell.place}{slot}"
    tray = cell.tray
    again = tray.regrowth_day is not None
    of = "" if again else f" of {tray.cut_day}"
    parts = [f"{numbers_words([tray.number])} {tray.crop}", f"day {tray.day_number}{of}"]
    parts += [f"growing again, day {tray.regrowth_day}"] if tray.regrowth_day is not None else []
    parts += ["mould seen"] if tray.mould_seen else []
    parts += [] if cell.place else [keyed("is on no shelf; {move} moves it")]
    parts += [_due(tray)] if _due(tray) else []
    parts += [f"{cell.place}{slot}"] if cell.place else []
    parts += [f"mark {tray.colour}"] if tray.colour else []
    return "  ".join(parts)


def _due(tray: RackTray) -> str:
    due = ", ".join(WORDS.get(chore, chore) for chore in tray.due)
    if not due:
        return "may be cut" if tray.ready == "ready" else ""
    return f"late: {due}" if tray.late else due
