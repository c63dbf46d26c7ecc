"""A room, rack or shelf: adding one, or changing one."""

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from textual.content import Content

from logbook.actions.book import Book
from logbook.actions.room.places import PlaceDraft, add_place, change_place, list_places
from logbook.actions.trays.dark import dark_under
from logbook.growing.quantities import SLOTS
from logbook.growing.room.places import Place, PlaceKind, Places
from logbook.growing.wall_hours import lamp_words
from logbook.growing.wall_reading import lamp_hours
from logbook.text import clean_name, plural
from logbook.ui.forms.form import FormScreen, Preview
from logbook.ui.subjects import PlaceSubject
from logbook.ui.widgets.form_lines import Field, matches

KINDS: tuple[PlaceKind, ...] = ("shelf", "rack", "room")


@dataclass(frozen=True, slots=True)
class PlaceForm:
    """What the form begins with: all standing places, and the one to change."""

    places: tuple[Place, ...]
    place: Place | None
    used: int = 0


class PlaceScreen(FormScreen):
    """The form of a place."""

    heading = "a place"
    purpose = "Add a shelf, rack or room, or change its name, slots and lamp hours."
    kind = "place"
    view: PlaceForm | None = None

    @property
    def draft_label(self) -> str:
        return self.about or "new"

    def load(self, book: Book) -> PlaceForm:
        views = list_places(book)
        places = tuple(view.place for view in views)
        if not self.about:
            return PlaceForm(places, None)
        place = Places(places).find(self.about)
        used = next(view.used for view in views if view.place.id == place.id)
        return PlaceForm(places, place, used)

    def draw(self, view: PlaceForm) -> None:
        self.counts = view.place.path if view.place else "new"
        super().draw(view)

    def _kind(self) -> PlaceKind:
        if self.view and self.view.place:
            return self.view.place.kind
        entry = self.entries.get("kind")
        typed = entry.text if entry is not None else ""
        fit = matches(typed, KINDS) if typed.strip() else []
        return next((kind for kind in KINDS if fit and kind == fit[0]), "shelf")

    def fields(self) -> tuple[Field, ...]:
        place = self.view.place if self.view else None
        places = self.view.places if self.view else ()
        above = [each.path for each in places if each.kind != "shelf"]
        kind = self._kind()
        slots = str(place.slots) if place and kind == "shelf" else "4"
        hours = lamp_words(place.lamp_on, place.lamp_off) if place else "06:00-22:00"
        return (
            Field("kind", "kind", "shelf, rack or room", "shelf", offers=KINDS, pick=True,
                  shown=place is None),
            Field("name", "name", "what it is called", place.name if place else "", clean_name),
            Field("under", "under", "empty: the last rack, or the room", offers=tuple(above),
                  pick=True, shown=place is None and kind != "room"),
            Field("slots", "slots", "trays that fit on it", slots, SLOTS.read, shown=kind == "shelf"),
            Field("lamps", "lamp hours", "or none for a dark shelf", hours, lamp_hours,
                  shown=kind == "shelf"),
        )  # fmt: skip

    def _under(self, values: Mapping[str, Any]) -> str:
        """What was asked for, else the last rack for a shelf and the room for a rack."""
        if values.get("under") or self.view is None or values.get("kind") == "room":
            return str(values.get("under", ""))
        racks = [place for place in self.view.places if place.kind == "rack"]
        return racks[-1].path if racks and values.get("kind") == "shelf" else ""

    def preview(self, values: Mapping[str, Any]) -> Preview:
        view = self.view
        if view is None:
            return Preview()
        if view.place is not None:
            words = f"{plural(view.used, 'tray')} on it now."
            return Preview((Content(words), Content("It keeps its trays and its record.")))
        kind, under = values["kind"], self._under(values)
        path = f"{under}/{values['name']}" if kind == "shelf" and under else values["name"]
        words = f"A {kind}, {path}, last in the walk"
        words += f" in {under}." if under and kind == "shelf" else "."
        return Preview((Content(words), Content("Change the walking order in the list of places.")))

    async def write(self, values: Mapping[str, Any]) -> str:
        name, under, slots = values["name"], self._under(values), values.get("slots", 4)
        draft = PlaceDraft(name, self._kind(), under, slots, *values.get("lamps", (None, None)))
        place = self.view.place if self.view else None
        if place is None:
            made = await self.write_book(add_place, draft)
            return f"{made.path} is added."
        made = await self.write_book(change_place, place.path, draft)
        self.subject = PlaceSubject(made.path)
        same = "is as it was: nothing was changed" if made == place else "is changed"
        off = place.lit and not made.lit
        dark = await asyncio.to_thread(dark_under, self.book, made.path) if off else ()
        return " ".join([f"{made.path} {same}.", *dark])
