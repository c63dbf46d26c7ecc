"""What is typed at the weigh-in, read; and when a weight deserves a question."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.yields import Expected
from logbook.growing.numbers import numbers_in_order, numbers_words
from logbook.growing.trays.till import parse_till, parted_from_time, trays_so_far
from logbook.growing.trays.weighing import doubt, usual_words, weight_of
from logbook.text import Refused

USUAL = Expected(283, 30, 245, 321, 12, 3)


@pytest.mark.parametrize(
    ("text", "numbers", "grams", "part"),
    [
        ("283", (117,), 283, False),
        ("117 283", (117,), 283, False),
        ("118 283", (118,), 283, False),
        ("118+283", (118,), 283, False),
        ("#118 283g", (118,), 283, False),
        ("118 283,5", (118,), 283.5, False),
        ("118 0.28 kg", (118,), 280, False),
        ("0.28kg", (117,), 280, False),
        ("118  .28 kg", (118,), 280, False),
        ("283 p", (117,), 283, True),
        ("283p", (117,), 283, True),
        ("118+283*", (118,), 283, True),
        ("118 283 part", (118,), 283, True),
        ("117-120 1150", (117, 118, 119, 120), 1150, False),
        ("117 - 120 1150", (117, 118, 119, 120), 1150, False),
        ("117 118, 120 900", (117, 118, 120), 900, False),
        ("117+118+120+900", (117, 118, 120), 900, False),
        ("0", (117,), 0, False),
        ("320-38", (117,), 282, False),
        ("118 320-38", (118,), 282, False),
        ("117-120 1200-80.5", (117, 118, 119, 120), 1119.5, False),
        ("118 1lb 2oz", (118,), 510.29141625, False),
        ("1 lb 2 oz", (117,), 510.29141625, False),
        ("118 320-38 p", (118,), 282, True),
        ("118 180+140", (118,), 320, False),
        ("118 180 + 140-38", (118,), 282, False),
        ("118+119 320+280", (118, 119), 600, False),
        ("118-120 1.2kg+150 p", (118, 119, 120), 1350, True),
        ("+180+140", (117,), 320, False),
        ("180g+140", (117,), 320, False),
        ("118+1lb+2oz", (118,), 510.29141625, False),
    ],
)
def test_a_line_is_read(text: str, numbers: tuple[int, ...], grams: float, part: bool) -> None:
    typed = parse_till(text, 117)
    assert (typed.numbers, typed.part) == (numbers, part)
    assert typed.grams == pytest.approx(grams)


@pytest.mark.parametrize("end", [" k", " K", " keep", "keep", "**"])
def test_a_k_behind_a_weight_says_that_the_tray_grows_again(end: str) -> None:
    typed = parse_till(f"118 283{end}", 117)
    assert (typed.numbers, typed.grams, typed.part, typed.keep) == ((118,), 283, False, True)


@pytest.mark.parametrize("text", ["117-120", "38-320", "118 38-320", "12-12 3 4-"])
def test_a_range_is_no_weight_and_a_tub_weighs_less_than_what_is_in_it(text: str) -> None:
    with pytest.raises(Refused):
        parse_till(text, 117)


@pytest.mark.parametrize(
    ("text", "grams"),
    [("320-38", 282), ("200+83", 283), ("1lb 2oz", 510.291), ("1 lb 2 oz - 3 oz", 425.243),
     ("0.3kg-18g", 282), ("283", 283), ("1,5-0,5", 1)],
)  # fmt: skip
def test_a_weight_may_be_a_sum(text: str, grams: float) -> None:
    # 1 lb = 453.59237 g, 1 oz = 28.349523125 g: international pound (NIST Handbook 44, App. C)
    assert weight_of(text) == pytest.approx(grams, abs=0.001)


def test_a_bare_sum_is_in_ounces_in_a_us_room() -> None:
    assert weight_of("11-1", "us") == pytest.approx(283.495, abs=0.001)


@pytest.mark.parametrize("text", ["12 34", "1lb 2", "38-320", "1,500-38", "320-", "3stone-1"])
def test_what_is_no_sum_is_refused(text: str) -> None:
    with pytest.raises(Refused):
        weight_of(text)


@pytest.mark.parametrize(
    ("text", "line", "when"),
    [
        ("283", "283", None),
        ("283 at 17:40", "283", "17:40"),
        ("117 283 p AT yesterday 17:40", "117 283 p", "yesterday 17:40"),
        ("117+283* yesterday 17:40", "117+283*", "yesterday 17:40"),
        ("283 at 2026-04-14T17:40", "283", "2026-04-14T17:40"),
        ("283 at", "283", ""),
        ("283 attic", "283 attic", None),
    ],
)
def test_the_time_of_a_cut_stands_at_the_end(text: str, line: str, when: str | None) -> None:
    assert parted_from_time(text) == (line, when)


def test_ounces_are_28_point_349523125_grams() -> None:
    """International yard and pound agreement of 1959, by which 1 lb is 0.45359237 kg."""
    assert parse_till("118 10 oz", 117).grams == pytest.approx(283.49523125)
    assert parse_till("118 10", 117, "us").grams == pytest.approx(283.49523125)
    ounce = 28.349523125
    assert (
        usual_words(Expected(10 * ounce, ounce, 9 * ounce, 11 * ounce), "us") == "usual 9.0–11.0 oz"
    )


@pytest.mark.parametrize(
    "text",
    ["", " ", "p", "*", "117-120", "117 -5", "-5", "117 abc", "abc", "117 283 x 4", "1,500",
     "117 1e9", "117 999999999", "117-115 300", "0-3 300", "[/]", "\x1b[31m", "117 283 stone",
     "1" * 5000, "117 ½½"],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(Refused, match=r"[.?]$"):
        parse_till(text, 117)


def test_with_no_tray_offered_the_tray_is_asked_for() -> None:
    with pytest.raises(Refused, match="Which tray"):
        parse_till("283", None)


def test_an_empty_line_asks_for_the_weight_of_the_tray_that_is_offered() -> None:
    with pytest.raises(Refused, match="weight of tray 117"):
        parse_till("", 117)
    with pytest.raises(Refused, match="a tray number and its weight"):
        parse_till("", None)


def test_a_bare_number_is_marked_since_it_may_be_a_tray() -> None:
    assert parse_till("118", 117).bare == 118
    assert parse_till("117 118", 117).bare is None
    assert parse_till("118 g", 117).bare is None


def test_numbers_that_may_be_trays_or_parts_of_a_sum_are_marked() -> None:
    assert parse_till("118+119+600", 117).unsure == (119,)
    assert parse_till("118 180+140", 117).unsure == (180,)
    assert parse_till("118+283", 117).unsure == parse_till("118 283", 117).unsure == ()


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        typed = parse_till(text, 117)
    except Refused:
        return
    assert typed.grams >= 0
    assert typed.numbers


@given(st.lists(st.integers(1, 9999), min_size=1, max_size=6), st.integers(0, 90_000))
def test_what_is_written_out_is_read_back(numbers: list[int], grams: int) -> None:
    typed = parse_till(f"{' '.join(map(str, numbers))} {grams}", None)
    assert typed.numbers == tuple(dict.fromkeys(numbers))
    assert typed.grams == grams


def test_the_trays_of_a_line_are_known_before_its_weight() -> None:
    assert trays_so_far("118") == ()
    assert trays_so_far("118 ") == (118,)
    assert trays_so_far("117-119+") == (117, 118, 119)
    assert trays_so_far("x 1") == ()
    # what stands behind the weight is no tray, and a weight of two parts is one
    assert (
        trays_so_far("104 100 k") == trays_so_far("104 100 p") == trays_so_far("104 100*") == (104,)
    )
    assert trays_so_far("100 k") == trays_so_far("100p") == ()
    assert trays_so_far("104 1lb 2oz") == trays_so_far("104 180+14") == (104,)
    assert trays_so_far("+180+14") == ()


def test_numbers_are_written_in_the_order_in_which_they_are_offered() -> None:
    assert numbers_in_order([472, 473, 101, 102, 103, 99]) == "472 473 101–103 99"
    assert numbers_words([472, 473, 101, 102, 103, 99]) == "99 101–103 472 473"


def test_only_odd_weights_are_doubted() -> None:
    assert doubt(283, 0, USUAL) == ""
    assert "10 times" in doubt(2830, 0, USUAL)
    assert "a tenth or less" in doubt(20, 0, USUAL)
    assert "did the tray die" in doubt(0, 0, USUAL)


def test_part_cuts_are_judged_as_parts() -> None:
    assert doubt(20, 0, USUAL, part=True) == ""
    assert "times the expected" in doubt(1500, 0, USUAL, part=True)
    assert doubt(20, 250, USUAL) == ""
    assert doubt(0, 250, USUAL) == ""
