"""What an entry says beside its kind, in words."""

from __future__ import annotations

from logbook.actions.book import Book
from logbook.actions.trays.doing import did
from logbook.actions.trays.entry_says import air_words, measured_words
from logbook.actions.trays.moving import move
from logbook.actions.trays.page import page
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.room.water import WaterReading
from logbook.store.reads.air import AirCount, count_together
from tests.actions.days import sow_at

WANTED = Targets(ph=Band(5.5, 6.5), ec=Band(0.8, 1.4), millilitres=Band(250, 400))


def test_water_is_said_with_what_is_out_of_its_band() -> None:
    assert measured_words(WaterReading(), "metric", [WANTED]) == ""
    assert measured_words(WaterReading(6.0, 1.0, 300), "metric", [WANTED]) == (
        "300 ml each, pH 6, EC 1 mS/cm"
    )
    assert measured_words(WaterReading(7.456, 0.555, 500), "metric", [WANTED, Targets()]) == (
        "500 ml each (high, wanted 250 to 400), pH 7.46 (high, wanted 5.5 to 6.5), "
        "EC 0.56 mS/cm (low, wanted 0.8 to 1.4)"
    )
    assert measured_words(WaterReading(7.456), "us") == "pH 7.46"


def test_air_is_said_from_its_coldest_and_driest_to_its_warmest_and_dampest() -> None:
    one = AirCount(1, 20.0, 20.0, 55.0, 55.0, 20.0, 55.0)
    assert air_words("metric", one) == "20 °C, 55 %"
    more = AirCount(11, 18.5, 19.0, 60.0, 71.0, 18.8, 65.0)
    assert (
        air_words("metric", count_together([one, more]))
        == "12 readings, 18.5 °C to 20 °C, 55 % to 71 %"
    )


def test_entries_say_weights_water_and_where_trays_went(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 3, place="Rack 1/Shelf 1", lot="L1")
    did(book, "water", [101], amount_ml=300, ph=6.2)
    move(book, [101, 102], "Rack 2/Shelf 2")
    weigh(book, [101, 102], 700, part=True)
    weigh(book, [103], 420)
    assert [(line.kind, line.words) for line in page(book) if line.kind != "soak"] == [
        ("sow", "sown from lot L1 on Rack 1/Shelf 1"),
        ("water", "watered: 300 ml each, pH 6.2"),
        ("move", "moved to Rack 2/Shelf 2"),
        ("weigh", "cut 700 g together, part cut"),
        ("weigh", "cut 420 g"),
    ]
    assert tray_page(book, 102).past[-1].words == "cut 350 g, shared out of 700 g, part cut"
