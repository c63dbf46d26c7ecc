"""What a corrected entry takes over, what it may change, and between which moments it may be put."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did, skip
from logbook.actions.trays.moving import move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.crops.templates import Stage
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.actions.days import counts, soaked_by_template, sow_at, stand_at
from tests.room import DAY, crop_of, day, moment, wall_words

SOWN = "2026-04-01 08:00"


def newest(book: Book, kind: str) -> int:
    """Give the id of the last entry of a kind."""
    with book.reading() as reading:
        row = reading.row("SELECT max(id) FROM entry WHERE kind = ?", (kind,))
    assert row is not None
    return int(row[0])


def correct(book: Book, kind: str, **changes: object) -> tuple[str, ...]:
    """Correct the last entry of a kind; give what is said of it."""
    found = replace_entry(book, newest(book, kind), "wrong", Changes(**changes))  # type: ignore[arg-type]
    return found.notices


def when(book: Book, number: int, kind: str) -> list[str]:
    """Give when entries of a kind were done on a tray, by those that stand."""
    return [
        wall_words(line.at)
        for line in tray_page(book, number).past
        if line.kind == kind and not line.struck
    ]


@pytest.mark.parametrize(
    ("changes", "batch"),
    [
        ({"grams": 90.0}, ("2", "L1", 90.0, "field test")),
        ({"lot": "L2"}, ("2", "L2", 80.0, "field test")),
        ({"lot": " "}, ("2", "", 80.0, "field test")),
        ({"template": "kale"}, ("2", "L1", 80.0, "kale")),
        ({"place": "Rack 2/Shelf 1"}, ("1", "L1", 80.0, "field test")),
        ({"note": "by hand"}, ("1", "L1", 80.0, "field test")),
    ],
)
def test_a_sowing_is_another_batch_where_its_seed_lot_or_crop_is_another(
    book: Book, changes: dict[str, object], batch: tuple[str, str, float, str]
) -> None:
    sow_at(book, SOWN, 2, lot="L1", grams=80)
    correct(book, "sow", **changes)
    found = batch_page(book, tray_page(book, 101).tray.batch)
    assert (found.batch, found.lot, found.seed_grams, found.template_name) == batch


def test_trays_that_have_gone_further_do_not_fit_a_crop_of_fewer_stages(book: Book) -> None:
    put_template(book, crop_of(Stage("light", None, "none", "lit"), name="short"))
    sow_at(book, SOWN, 1)
    did(book, "weight off", [101])
    before = counts(book)
    with pytest.raises(Refused, match='gone through 2 stages; "short" has 1'):
        correct(book, "sow", template="short")
    assert counts(book) == before
    put_template(
        book,
        crop_of(
            Stage("dark", DAY, "lid", "dark"), Stage("light", None, "none", "lit"), name="fits"
        ),
    )
    correct(book, "sow", template="fits")
    assert tray_page(book, 101).tray.stage == "light"


def test_a_soak_that_was_reckoned_goes_with_the_crop_and_one_that_was_said_stays(
    book: Book,
) -> None:
    # given one sowing as older versions wrote it, with the soak of its template
    soaked_by_template(book, SOWN)
    correct(book, "sow", at=moment("2026-04-01 07:00"))
    correct(book, "sow", at=moment("2026-04-01 06:00"))  # a second time too
    assert when(book, 101, "soak") == ["2026-04-01 02:00"]
    correct(book, "sow", template="kale")
    assert when(book, 101, "soak") == []
    # and one with a time that was said
    sow_at(book, SOWN, 1, soaked=moment("2026-03-31 20:00"))
    correct(book, "sow", at=moment("2026-04-01 07:00"))
    correct(book, "sow", at=moment("2026-04-01 07:30"))
    assert when(book, 102, "soak") == ["2026-03-31 20:00"]
    correct(book, "sow", template="kale")
    assert when(book, 102, "soak") == ["2026-03-31 20:00"]
    # then a sowing before its seed was in the water is refused, however often it was corrected
    with pytest.raises(Refused, match="The soak began"):
        correct(book, "sow", at=moment("2026-03-31 19:59"))
    correct(book, "sow", at=moment("2026-03-31 20:00"))


def test_a_soak_is_over_when_its_tray_is_sown(book: Book) -> None:
    sow_at(book, SOWN, 1, soaked=moment("2026-04-01 04:00"))
    with pytest.raises(Refused, match="was sown"):
        correct(book, "soak", at=moment("2026-04-01 08:01"))
    correct(book, "soak", at=moment(SOWN))
    assert when(book, 101, "soak") == [SOWN]


def test_a_sowing_comes_after_a_soak_that_was_written_for_itself(book: Book) -> None:
    stand_at(book, "2026-03-31 08:00")
    sow(book, SowDraft("field test", 1, at=moment(SOWN)))
    stand_at(book, "2026-03-31 21:00")
    did(book, "soak", [101])
    stand_at(book, SOWN)
    did(book, "sow", [101])
    with pytest.raises(Refused, match="was soaked"):
        correct(book, "sow", at=moment("2026-03-31 20:59"))
    correct(book, "sow", at=moment("2026-03-31 21:00"))
    assert when(book, 101, "sow") == ["2026-03-31 21:00"]


def test_a_change_stays_between_the_one_before_it_and_the_one_after(book: Book) -> None:
    sow_at(book, SOWN, 1)
    stand_at(book, "2026-04-06 08:00")
    did(book, "weight off", [101], moment("2026-04-04 08:00"))
    (off,) = (newest(book, "change"),)
    did(book, "to the light", [101], moment("2026-04-05 08:00"))

    def put(at: str) -> None:
        nonlocal off
        replace_entry(book, off, "wrong", Changes(at=moment(at)))
        off = newest(book, "change")

    with pytest.raises(Refused, match="next stage"):
        put("2026-04-05 08:01")
    with pytest.raises(Refused, match="stage before"):
        put("2026-04-01 07:59")
    for at in ("2026-04-05 08:00", SOWN):
        put(at)
        assert when(book, 101, "change")[0] == at
    assert tray_page(book, 101).tray.stage == "light"


def test_a_tray_that_was_not_sown_had_neither_water_nor_a_weight(book: Book) -> None:
    sow_at(book, SOWN, 1)
    sow(book, SowDraft("field test", 1, at=moment("2026-04-03 08:00")))
    did(book, "water", [101])
    with pytest.raises(Refused, match="102 is not sown yet"):
        correct(book, "water", numbers=(102,))


def test_water_of_other_trays_keeps_its_amount(book: Book) -> None:
    sow_at(book, SOWN, 2)
    did(book, "water", [101], amount_ml=250, ph=6.1)
    correct(book, "water", numbers=(102,))
    (line,) = (line for line in page(book) if line.kind == "water" and not line.struck)
    assert line.trays == (102,)
    assert "250 ml" in line.words
    assert "6.1" in line.words
    for wrong in (0, -1, 60_000):
        with pytest.raises(Refused):
            correct(book, "water", amount_ml=wrong)


def test_a_weight_of_other_trays_is_the_same_sum_shared_out_anew(book: Book) -> None:
    sow_at(book, SOWN, 3)
    weigh(book, [101, 102], 900, part=True)
    correct(book, "weigh", numbers=(101, 102, 103))
    assert [tray_page(book, number).tray.state.grams for number in (101, 102, 103)] == [
        300,
        300,
        300,
    ]
    assert tray_page(book, 103).tray.status == "growing"
    correct(book, "weigh", part=False)
    assert tray_page(book, 103).tray.status == "cut"
    (asked,) = correct(book, "weigh", grams=0)
    assert "did the tray die" in asked


def test_a_corrected_look_cautions_and_makes_ready_what_shows_its_own_sign(book: Book) -> None:
    # given two crops that are ready at other signs
    put_template(
        book,
        crop_of(Stage("light", None, "none", "lit"), name="early", sign_to_cut="seed leaves open"),
    )
    sow_at(book, SOWN, 1)
    sow(book, SowDraft("early", 1))
    look(book, [101, 102], Look(height_mm=30))
    notices = correct(book, "look", look=Look(true_leaves=True, mould="spot"))
    assert [bool(tray_page(book, each).tray.state.sign_at) for each in (101, 102)] == [True, False]
    assert len(notices) == 1
    assert tray_page(book, 102).tray.state.mould_at is not None
    assert correct(book, "look", look=Look(mould="none")) == ()


def test_a_move_of_another_tray_goes_where_it_went(book: Book) -> None:
    sow_at(book, SOWN, 2, place="Rack 1/Shelf 1")
    move(book, [101], "Rack 2/Shelf 3")
    correct(book, "move", numbers=(102,))
    assert [tray_page(book, each).tray.place for each in (101, 102)] == [
        "Rack 1/Shelf 1",
        "Rack 2/Shelf 3",
    ]
    # but trays that went to several shelves must be told where
    sow_at(book, SOWN, 5, place="Rack 1/Shelf 4")
    numbers = [103, 104, 105, 106, 107]
    move(book, numbers, "Rack 2")
    with pytest.raises(Refused, match="place"):
        correct(book, "move", numbers=tuple(numbers[1:]))
    correct(book, "move", numbers=tuple(numbers[1:]), place="Rack 1/Shelf 3")
    assert {tray_page(book, each).tray.place for each in numbers[1:]} == {"Rack 1/Shelf 3"}


def test_a_plan_is_put_to_another_day_that_lies_ahead(book: Book) -> None:
    stand_at(book, SOWN)
    sow(book, SowDraft("field test", 2, at=moment("2026-04-03 08:00"), place="Rack 1/Shelf 2"))
    for at in (book.now(), book.now() - timedelta(days=1)):
        with pytest.raises(Refused, match="for later"):
            correct(book, "plan", at=at)
    correct(book, "plan", at=moment("2026-04-04 08:00"))
    found = tray_page(book, 102)
    assert wall_words(found.tray.state.planned_for or book.now()) == "2026-04-04 08:00"
    assert found.tray.place == "Rack 1/Shelf 2"
    correct(book, "plan", place="Rack 2/Shelf 2")
    assert tray_page(book, 102).tray.place == "Rack 2/Shelf 2"
    with pytest.raises(Refused, match="place"):
        correct(book, "plan", place="Attic")


def test_a_note_may_be_taken_off_where_it_is_not_all_there_is(book: Book) -> None:
    sow_at(book, SOWN, 1, note="by hand")
    correct(book, "sow", note=" ")
    jot(book, [101], "smels")
    skip(book, "water", [101], "wet")
    for kind in ("jot", "skip"):
        with pytest.raises(Refused, match="empty"):
            correct(book, kind, note=" ")
    notes = {line.kind: line.note for line in page(book, day("2026-04-01")) if not line.struck}
    assert (notes["sow"], notes["jot"], notes["skip"]) == ("", "smels", "wet")


def test_a_jot_is_put_to_the_place_that_was_meant(book: Book) -> None:
    sow_at(book, SOWN, 1)
    jot(book, [], "lamp hums", place="Rack 1/Shelf 1")
    correct(book, "jot", place="Rack 2/Shelf 2")
    (line,) = (line for line in page(book) if line.kind == "jot" and not line.struck)
    assert (line.place, line.note) == ("Rack 2/Shelf 2", "lamp hums")
