"""Writing a walk round a shelf with a light meter."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.room.lamps import shelf_named
from logbook.actions.room.light import estimate_words, shelves_lit
from logbook.actions.trays.done import Done, done_of
from logbook.growing.measures import number_words
from logbook.growing.room.light import from_lux, lamp_kind
from logbook.growing.room.spots import Grid, Spot, uniformity
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class SurveyDraft:
    """A walk round a shelf with a meter, at tray height.

    `spots` hold µmol m⁻² s⁻¹, or lux when `lux_lamp` names the kind of lamp. `height_mm` is from
    the trays to the lamp.
    """

    place: str
    grid: Grid
    spots: tuple[Spot, ...]
    height_mm: float | None = None
    lux_lamp: str = ""
    at: datetime | None = None
    note: str = ""


def write_survey(book: Book, draft: SurveyDraft) -> Done:
    """Write a survey of a shelf and say what it comes to.

    Raises Refused for no such shelf, no reading, a spot outside the grid, an impossible reading or
    height.
    """
    from logbook.store.tables import LightSpotRow, LightSurveyRow

    kind = lamp_kind(draft.lux_lamp) if draft.lux_lamp else None
    spots = draft.spots
    if kind is not None:
        spots = tuple(replace(spot, ppfd=from_lux(spot.ppfd, kind).ppfd) for spot in spots)
    draft.grid.check(spots)
    even = uniformity([spot.ppfd for spot in spots])
    if draft.height_mm is not None and not 10 <= draft.height_mm <= 3000:
        raise Refused("The lamp hangs 1 cm to 3 m above the trays; write it like 21 cm.")
    with book.writing() as act:
        when = act.moment(draft.at, "A light reading")
        shelf = shelf_named(draft.place, act.reading.places)
        entry = act.entry("light", (), when, note=draft.note, place=shelf.id)
        act.session.add(
            LightSurveyRow(
                entry_id=entry,
                spot_rows=draft.grid.rows,
                spot_columns=draft.grid.columns,
                height_mm=draft.height_mm,
                lux_lamp=kind.name if kind else "",
            )
        )
        act.session.flush()
        act.session.add_all(
            LightSpotRow(
                entry_id=entry,
                spot_row=spot.row,
                spot_column=spot.column,
                ppfd=spot.ppfd,
                lux=measured.ppfd if kind else None,
            )
            for spot, measured in zip(spots, draft.spots, strict=True)
        )
        done = f"light on {shelf.path}: mean {number_words(even.mean, 0)} µmol/m²/s, {even.words}"
        view = shelves_lit(act.reading, [shelf])[0]
        notices = [estimate_words(kind.name, even)] if kind else []
        notices += [f"{each.crop}: {each.judgement.words}" for each in view.verdicts]
        return done_of(act, done, (), notices)
