"""Numbers of goods against what GS1 prints and two libraries that read them."""

from __future__ import annotations

from datetime import date

import pytest
from biip.gs1_messages import GS1Message
from biip.gtin import Gtin
from hypothesis import given
from hypothesis import strategies as st
from stdnum import ean

from logbook.growing.labels.gs1 import (
    check_digit,
    element_words,
    elements,
    gtin_read,
    prefix_read,
)
from logbook.text import Refused

OURS = "6291041500213"
"""gs1.org prints 629104150021 with check digit 3 as its example."""


def test_the_check_digit_that_gs1_prints() -> None:
    assert check_digit("629104150021") == 3
    assert gtin_read("629104 150021-3") == OURS


@given(
    st.sampled_from([7, 11, 12, 13]).flatmap(
        lambda n: st.text("0123456789", min_size=n, max_size=n)
    )
)
def test_two_libraries_accept_every_number_with_our_check_digit(digits: str) -> None:
    whole = f"{digits}{check_digit(digits)}"
    assert gtin_read(whole) == whole
    assert ean.is_valid(whole)
    assert Gtin.parse(whole).check_digit == check_digit(digits)
    wrong = f"{digits}{(check_digit(digits) + 1) % 10}"
    assert not ean.is_valid(wrong)
    with pytest.raises(Refused, match=whole):
        gtin_read(wrong)


def test_an_item_goes_on_after_ones_own_prefix() -> None:
    assert gtin_read("50021", "6291041") == OURS
    with pytest.raises(Refused, match="or the 5 of your item after 6291041; you typed 3"):
        gtin_read("500", "6291041")
    for words in ("", "x", "12.5"):
        with pytest.raises(Refused, match="isn't a GTIN"):
            gtin_read(words)
    with pytest.raises(Refused, match="4 to 12 digits"):
        prefix_read("629")
    assert prefix_read("629 1041") == "6291041"


def test_a_library_reads_the_element_string_back() -> None:
    found = elements(OURS, "1128-DAI-1", date(2026, 11, 28), date(2026, 12, 5))
    assert element_words(found) == "(01)06291041500213(13)261128(15)261205(10)1128-DAI-1"
    read = GS1Message.parse("".join(ai + value for ai, value in found))
    assert [(each.ai.ai, each.value) for each in read.element_strings] == found
    gtin, packed, best, _ = read.element_strings
    assert gtin.gtin is not None
    assert gtin.gtin.value == OURS.zfill(14)
    assert (packed.date, best.date) == (date(2026, 11, 28), date(2026, 12, 5))


@pytest.mark.parametrize("lot", ["a b", "märz", "x" * 21, ""])
def test_a_lot_code_that_gs1_cannot_hold_is_refused(lot: str) -> None:
    with pytest.raises(Refused, match="up to 20"):
        elements(OURS, lot, None, None)
