"""Ask the pack: ten lines, from the bag to what shares its seed."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.packs.life import life_of
from logbook.actions.trays.doing import did
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.text import Refused
from tests.actions.packs.gone_out import despatch, lot_ids


def test_a_pack_tells_its_life_in_ten_lines(book: Book) -> None:
    at = book.now() - timedelta(days=10)
    draft = SowDraft("field test", 1, lot="RA 1", at=at, place="Rack 1/Shelf 1")
    first, second = (sow(book, draft).plan.numbers[0] for _ in range(2))
    weigh(book, [first], 300)
    (code,) = lot_ids(book)
    despatch(book, "Bistro", {code: 200}, packs=2)
    told = {one.what: one.words for one in life_of(book, code).life}
    assert len(told) == 10
    own = f"{code}, Tue 14 Apr, field test, best before Tue 21 Apr"
    assert told["pack"] == f"{own}; allergens not known"
    assert told["seed"] == "RA 1"
    assert told["sown"].startswith("Sat 4 Apr 07:42")
    assert told["stood"] == "Rack 1/Shelf 1"
    assert told["light"] == "not measured"
    assert told["air"] == "no readings"
    assert told["cut"] == "Tue 14 Apr by tester, 300 g of 1 cut"
    assert told["packed"] == f"2 packs of {code} for Bistro, Tue 14 Apr by tester"
    assert told["same seed"] == "1 tray growing; packs at Bistro"
    other = {one.what: one.words for one in life_of(book, f"tray {second}").life}
    assert other["pack"] == "in no pack lot"
    assert other["same seed"] == f"lot {code}; packs at Bistro"


def test_a_late_lid_is_told(book: Book) -> None:
    at = book.now() - timedelta(days=10)
    sown = sow(book, SowDraft("field test", 1, lot="RA 1", at=at, place="Rack 1/Shelf 1")).plan
    did(book, "lid on", sown.numbers, at + timedelta(days=4, hours=9))
    told = {one.what: one.words for one in life_of(book, "tray 101").life}
    assert told["late"] == "lid or weight 9 h late"
    assert told["cut"] == "not weighed"


def test_a_bag_is_no_pack(book: Book) -> None:
    sow(book, SowDraft("field test", 1, lot="RA 1"))
    with pytest.raises(Refused, match="ask about a pack lot"):
        life_of(book, "RA 1")
