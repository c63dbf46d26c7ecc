"""Trays as they stand now: the stored trays, folded."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from logbook.actions.book import Book, Fold
from logbook.growing.life import TrayState, fold_deeds, pass_by
from logbook.growing.numbers import LARGEST, numbers_words
from logbook.growing.places import Place
from logbook.growing.round import TrayNow
from logbook.growing.templates import CropTemplate
from logbook.store.reads import (
    StoredTray,
    newest_trays_numbered,
    read_deeds,
    read_live_trays,
    read_newest,
    read_versions,
)
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Known:
    """A stored tray with its template version and its state."""

    stored: StoredTray
    template: CropTemplate
    state: TrayState


def fold_all(
    connection: sqlite3.Connection, book: Book, trays: Sequence[StoredTray], *, live: bool = False
) -> list[Known]:
    """Fold stored trays into their states; `live` says that they are all the live ones.

    Only trays with entries that `book.folds` does not know of are read from their deeds.
    """
    now, hours = book.now(), book.hours
    versions = read_versions(connection, {tray.version_id for tray in trays})
    newest = read_newest(connection, None if live else [tray.id for tray in trays])
    folds = {
        tray.id: fold
        for tray in trays
        if (fold := book.folds.get(tray.id))
        and (fold.newest, fold.batch_id, fold.version_id, fold.hours)
        == (newest.get(tray.id), tray.batch_id, tray.version_id, hours)
    }
    new = [tray for tray in trays if tray.id not in folds]
    deeds = read_deeds(connection, [tray.id for tray in new] if folds or not live else None)
    for tray in new:
        state = fold_deeds(versions[tray.version_id], deeds.get(tray.id, ()), hours)
        folds[tray.id] = Fold(newest.get(tray.id), tray.batch_id, tray.version_id, hours, state)
    if live:
        book.folds = folds
    found = []
    for tray in trays:
        template = versions[tray.version_id]
        found.append(Known(tray, template, pass_by(folds[tray.id].state, template, now)))
    return found


def live_known(connection: sqlite3.Connection, book: Book) -> list[Known]:
    """Give all planned and growing trays, folded, by number."""
    return fold_all(connection, book, read_live_trays(connection), live=True)


def tray_now(known: Known, places: dict[int, Place]) -> TrayNow:
    """Give a folded tray as the round sees it."""
    place = places.get(known.state.place or 0)
    stored = known.stored
    grams = stored.grams_per_tray
    return TrayNow(
        tray=stored.id,
        number=stored.number,
        batch=str(stored.batch_id),
        batch_id=stored.batch_id,
        template=known.template,
        state=known.state,
        place=place.path if place else "",
        walk=place.walk if place else (),
        colour=stored.colour,
        lot=stored.lot,
        seed_grams=grams if grams is not None else known.template.seed_grams,
    )


def trays_numbered(
    connection: sqlite3.Connection, book: Book, numbers: Collection[int], *, live: bool = True
) -> list[Known]:
    """Give the trays of these numbers, folded, in the order asked for.

    Raises:
        Refused: a number that no tray has; with `live`, one whose tray is cut or thrown out.
    """
    found = newest_trays_numbered(connection, [each for each in numbers if 0 < each <= LARGEST])
    unknown = [number for number in numbers if number not in found]
    if unknown:
        growing = [tray.number for tray in read_live_trays(connection)]
        known = f" Trays in use: {numbers_words(growing)}." if growing else " No tray is in use."
        plural = "is no tray" if len(unknown) == 1 else "are no trays"
        raise Refused(f"There {plural} {numbers_words(unknown)[:200]}.{known[:200]}")
    trays = fold_all(connection, book, [found[number] for number in numbers])
    if live:
        refuse_ended(trays)
    return trays


def refuse_ended(trays: Collection[Known]) -> None:
    """Raise Refused when any of the trays is cut, thrown out or struck."""
    gone = [known for known in trays if not known.state.live]
    if not gone:
        return
    ends: dict[str, list[int]] = {}
    for known in gone:
        words = {"cut": "cut", "discarded": "thrown out"}.get(known.state.status, "struck")
        ends.setdefault(words, []).append(known.stored.number)
    tray_is, it_was = ("Tray {} is", "it was") if len(gone) == 1 else ("Trays {} are", "they were")
    numbers = numbers_words(known.stored.number for known in gone)
    how = f"{it_was} {next(iter(ends))}"
    if len(ends) > 1:
        how = ", ".join(f"{words}: {numbers_words(some)}" for words, some in ends.items())
    raise Refused(f"{tray_is.format(numbers)} no longer growing ({how}).")


def taken_slots(trays: Collection[Known]) -> dict[int, list[int | None]]:
    """Give the slots that growing trays hold, by place id."""
    taken: dict[int, list[int | None]] = {}
    for known in trays:
        if known.state.status == "growing" and known.state.place is not None:
            taken.setdefault(known.state.place, []).append(known.state.slot)
    return taken
