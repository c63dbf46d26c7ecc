"""Make book-REVISION.sql: a book of the newest revision with rows in every table, as text.

    python -m tests.assets.make_book

Run it only while that revision is not yet released. Afterwards the file is kept as it is, so that
every later program is tried on what this one wrote.
"""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.care.closing import close_days
from logbook.actions.costs.rates import set_rate
from logbook.actions.crops.templates import copy_template, put_template, show_template
from logbook.actions.orders.customers import pause
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.withdrawing import change_lot, pack_mix, take_back, take_out
from logbook.actions.recall.holding import hold, release
from logbook.actions.recall.recalling import RecallDraft, keep_recall
from logbook.actions.records.assurances import assure
from logbook.actions.records.covered import set_sales
from logbook.actions.records.reviewing import review
from logbook.actions.room.air import write_air
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.lamps import CircuitDraft, hang_lamps, set_circuit, set_tariff
from logbook.actions.room.light import SurveyDraft, write_survey
from logbook.actions.room.outages import write_outage
from logbook.actions.room.places import PlaceDraft, add_place, change_place
from logbook.actions.room.upkeep import DutyDraft, check, set_duty
from logbook.actions.room.water import measure_water
from logbook.actions.seed.writing import buy_seed, count_seedlings, weigh_seed
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.sheet import print_sheet
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.trials.deciding import decide, set_weights
from logbook.actions.trials.planned_end import plan_end
from logbook.actions.trials.setting_up import TrialDraft, set_up
from logbook.actions.trials.sowing import SowTrialDraft, sow_trial
from logbook.actions.trials.tasting import (
    SampleSaid,
    new_tasting,
    newest_sheet,
    taste,
    write_triangle,
)
from logbook.clock import FixedClock
from logbook.growing.records.exemption import SalesYear
from logbook.growing.room.light import Grid, Spot
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.room.water import WaterReading
from logbook.growing.seed.bags import Bag
from logbook.growing.trays.looks import Look
from logbook.growing.wall_hours import WallHours
from logbook.store.revision import HEAD
from logbook.store.search import INDEX
from tests.room import targets_from

ASSET = Path(__file__).parent / f"book-{HEAD}.sql"
START = datetime(2026, 3, 20, 6, 30, tzinfo=UTC)


def fill(path: Path) -> None:
    """Make a book with rows in every table."""
    clock = FixedClock(START)
    book = begin_book(
        path, BeginDraft("Back room", "Europe/London", 2, 3, 6, currency="GBP"), clock, "ab"
    )
    add_place(book, PlaceDraft("Window", "shelf", "Rack 1", 3, None, None))
    copy_template(book, "radish", "red radish")
    sow(
        book,
        SowDraft(
            "red radish", trays=4, lot="R-17 = 60 g + R-18 = 20 g", colours=("blue",), note="dense"
        ),
    )
    sow(book, SowDraft("kale", trays=3, at=START - timedelta(days=1), grams=18.0))
    sow(book, SowDraft("pea", trays=2, at=START + timedelta(days=2), plan=True, place="Rack 2"))
    clock.at += timedelta(days=2)
    did(book, "water", (101, 102), amount_ml=250.0)
    skip(book, "look", (103,), "no time")
    look(
        book, (104,), Look(90.0, 21.0, "spot", "corner", False, None, False, "white", True, "edge")
    )
    did(book, "sow", (108, 109), note="planned, now done")
    clock.at += timedelta(days=3)
    did(book, "light_on", (105, 106, 107))
    move(book, (101,), "Rack 1/Window")
    book.by = "cd"
    jot(book, (102, 103), 'odd text: [b] "quotes", = 1 + 1, ø 🌱')
    jot(book, (), "the room was aired", place="Rack 2")
    clock.at += timedelta(days=4)
    weigh(book, (101,), 150.0, part=True)
    weigh(book, (101,), 90.5)
    weigh(book, (102, 103), 430.0, note="together")
    discard(book, (104,), "mould")
    weigh(book, (106,), 260.0, keep=True)
    weigh(book, (105,), 999.0)
    undo(book)
    strike(book, jot(book, (), "a slip").act_id, "wrong room")
    meter(book)
    compare(book)
    print_sheet(book)
    sell(book)
    for code in ("107", "seed lot R-17", "Rack 2/Shelf 3", "batch 2"):
        hold(book, code, "to be looked at")
    release(book, "107", "nothing found")
    keep_recall(
        book, RecallDraft("seed lot R-17", clock.at - timedelta(minutes=4), note="all reached")
    )
    clock.at += timedelta(days=1)
    close_days(book)


def sell(book: Book) -> None:
    """Write down a mix, a standing line of it, a single order, what was packed of it, and a pause."""
    put_mix(book, "salad mix", "2 kale + 1 red radish")
    order(book, OrderDraft("the chef", "salad mix 6 x 50g every tue,fri", "3.20"))
    order(book, OrderDraft("the chef", "red radish 300g tomorrow"))
    pack_for(book, "the chef", "red radish")
    pack_mix(book, "salad mix", 90.0)
    take_out(book, "260329-RAD-1", 20.0, "own use")
    change_lot(book, "260329-RAD-1", "RED-29", "5 Apr")
    take_back(book, "the chef", "260329-rad-1", 30.0, note="wilted")
    assure(book, "the chef", "washes what is cut")
    pause(book, "the chef", "24 Dec", "2 Jan")


def compare(book: Book) -> None:
    """Write down a trial: set up, sown, tasted, weighed up, decided."""
    assert isinstance(book.clock, FixedClock)
    draft = TrialDraft(
        "Density",
        "kale",
        "density",
        ("thin=16 g", "thick=24 g"),
        shelves=("Rack 2/Shelf 2", "Rack 2/Shelf 3"),
        layout_number=7,
    )
    set_up(book, draft)
    sow_trial(book, "Density", SowTrialDraft())
    new_tasting(book, "Density", seed=3)
    sheet = newest_sheet(book, "Density")
    taste(
        book, "Density", "ef", {code: SampleSaid({"taste": 6.0}) for code in sheet.codes.values()}
    )
    write_triangle(book, "Density", ("thin", "thick"), 6, 3)
    set_weights(book, "Density", {"yield": 2.0, "taste": 1.0})
    plan_end(book, "Density", 4)
    decide(book, "Density", "too early to say", "more trays", "thin")


def meter(book: Book) -> None:
    """Write down lamps, hours, prices, circuits, light, air, water, targets and a cleaning."""
    hang_lamps(book, "Rack 1", LampSet(4, 18.0, "LED bar", "4000 K", 0.16, 120.0, 210.0))
    change_place(book, "Rack 1/Shelf 1", PlaceDraft("Shelf 1", slots=6, lamp_on=300, lamp_off=1260))
    dear = OtherHours(WallHours(17 * 60, 20 * 60), Decimal("0.42"))
    set_tariff(book, Tariff(book.today(), Decimal("0.3"), (dear,)))
    set_circuit(book, CircuitDraft("left wall", 15.0, 120.0, ("Rack 1",)))
    write_outage(book, book.now() - timedelta(hours=3), book.now() - timedelta(hours=1))
    spots = (Spot(1, 1, 180.0), Spot(2, 1, 200.0), Spot(3, 1, 220.0))
    write_survey(book, SurveyDraft("Rack 1/Shelf 1", Grid(3, 1), spots, 165.0))
    write_air(book, 21.4, 63.0, "Rack 1", still=False)
    did(book, "water", (106, 107), amount_ml=300.0, ph=6.1, ec=1.2)
    measure_water(book, WaterReading(7.2, 0.6), place="Rack 2")
    use_solution(book, UseDraft("trays", "soak 10 min, rinse", "bleach", 5.25, 0.02, 10_000.0))
    set_duty(book, DutyDraft("scale", known_grams=100.0))
    check(book, "scale", 99.8)
    review(book)
    set_sales(book, SalesYear(book.today().year, Decimal(900), Decimal(500)))
    bought = book.today() - timedelta(days=30)
    bag = Bag("RA 12", "radish", 1000.0, bought, "Hill farm", Decimal("18.5"), 92.0, bought, False)
    buy_seed(book, bag)
    count_seedlings(book, "RA 12", 100, 91)
    weigh_seed(book, "RA 12", 340.0)
    set_rate(book, "medium", Decimal("0.35"), "kale")
    targets = targets_from({"light": "8-12", "temperature": "18-24 C", "ph": "5.5-6.5"})
    put_template(book, replace(show_template(book, "kale").template, targets=targets), "wishes")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "room.book"
        fill(path)
        with closing(sqlite3.connect(path)) as connection:
            connection.execute(f"DROP TABLE {INDEX}")  # it cannot be told in plain SQL
            mark = connection.execute("PRAGMA application_id").fetchone()[0]
            lines = [f"PRAGMA application_id={mark};", *connection.iterdump()]
    ASSET.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{ASSET.name}: {len(lines)} lines")


if __name__ == "__main__":
    main()
