"""Places: racks and shelves in walking order, with their slots and lamp hours."""

from dataclasses import replace

from textual import work
from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.room import places as acts
from logbook.actions.room.place_table import PLACES
from logbook.growing.room.places import Place, place_name
from logbook.text import plural
from logbook.ui.forms.asking import AskYes
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import LightSubject, PlaceSubject, Subject
from logbook.ui.tables import table_rows
from logbook.ui.widgets.walk_list import Row


class PlacesScreen(LogScreen):
    """One line for each room, rack and shelf."""

    heading = "places"
    purpose = (
        "Racks and shelves in the order you walk past them, with the slots in use "
        "and the hours of the lamps. {sooner} and {later_walk} move one up or down in the walk."
    )
    enter = "edit"
    own = ("edit", "add", "sooner", "later_walk", "retire")
    view: list[acts.PlaceView] | None = None

    def load(self, book: Book) -> list[acts.PlaceView]:
        return acts.list_places(book, retired=True)

    def rows(self, view: list[acts.PlaceView]) -> list[Row]:
        standing = [each for each in view if not each.place.retired]
        shelves = [each for each in standing if each.place.kind == "shelf"]
        free = sum(each.free for each in shelves)
        slots = plural(free, "free slot")
        self.counts = (
            slots if self.narrow else f"{plural(len(shelves), 'shelf', 'shelves')}   {slots}"
        )
        drawn = table_rows(PLACES, standing, self.width, lambda one: f"place-{one.place.id}", _tone)
        rows = [replace(row, of=row.of and row.of.place) for row in drawn]
        retired = [each.place for each in view if each.place.retired]
        if retired:
            rows.append(Row.head("Retired", "$text-past"))
            rows += [_row(one, Content.styled(f"  {one.path}", "$text-past")) for one in retired]
        if not view:
            rows.append(Row(Content(self.keyed("No places: {add} adds a rack or a shelf."))))
        return rows

    def does(self, name: str) -> bool:
        place: Place | None = self.walk.under
        if place is None or name not in ("sooner", "later_walk"):
            return super().does(name)
        alike = [each.place for each in self.view or () if each.place.parent == place.parent]
        standing = [each for each in alike if not each.retired]
        return place in standing and place is not standing[0 if name == "sooner" else -1]

    def beside(self) -> Subject | Content | None:
        place: Place | None = self.walk.under
        one = next((each for each in self.view or () if each.place is place), None)
        if place is None or one is None or place.kind != "room":
            return LightSubject(place.path) if place else None
        return self.told(
            place.name,
            (
                ("slots", f"{one.used + one.free}"),
                ("in use", f"{one.used}"),
                ("free", f"{one.free}"),
            ),
        )

    def action_edit(self) -> None:
        place: Place | None = self.walk.under
        if place is None:
            return
        if place.retired:
            self.say(f"{place.path} is retired; {self.keyed('{retire}')} brings it back.")
        elif place.kind == "room" and place.name == place_name(self.book.about.name):
            self.logbook.go("room")
        else:
            self.logbook.go(PlaceSubject(place.path))

    def action_add(self) -> None:
        self.logbook.go(PlaceSubject())

    @work
    async def action_retire(self) -> None:
        place: Place | None = self.walk.under
        if place is None:
            return
        if place.retired:
            if await self.ask_book(acts.take_back_place, place.path) is not None:
                self.say(f"{place.path} is back in use.")
            return
        asked = (
            f"Retire {place.path}? It leaves the walk and takes no more trays; its record stays."
        )
        if (
            await self.ask(AskYes(asked))
            and await self.ask_book(acts.retire_place, place.path) is not None
        ):
            self.say(f"{place.path} is retired; {self.keyed('{retire}')} brings it back.")

    @work(group="step")
    async def action_walk_past(self, later: bool) -> None:
        place: Place | None = self.walk.under
        if place is not None and not place.retired:
            self.say("")
            await self.ask_book(acts.walk_earlier, place.path, later=later)


def _row(place: Place, text: Content) -> Row:
    return Row(text, f"place-{place.id}", place)


def _tone(one: acts.PlaceView) -> str:
    return "" if one.place.kind == "shelf" else "bold $primary"
