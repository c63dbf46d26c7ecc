"""Text from people: kept faithfully, cleaned of what could harm a terminal."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.text import Refused, clean, clean_name, clean_note, fold, listed, nearest, plural


@pytest.mark.parametrize(
    "text", ["[/]", "[100%]", "[bold]x[/bold]", "{x}", "%s %d", "🌱🌿 ok", "Ä́ß", "=1+1", "a\nb"]
)
def test_harmless_text_stays_as_it_is(text: str) -> None:
    assert clean(text) == text


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("\x1b[31mred\x1b[0m", "[31mred[0m"),
        ("\x1b]0;title\x07x", "]0;titlex"),
        ("a\x9bb", "ab"),
        ("a\u202eb\u2066c", "abc"),
        ("a\u200fb", "ab"),
        ("a\x00b", "ab"),
        ("a\ud800b", "ab"),
        ("a\r\nb\rc", "a\nb\nc"),
        ("  x\t y ", "x  y"),
        ("e\u0301", "é"),
    ],
)
def test_what_could_harm_a_terminal_goes(text: str, kept: str) -> None:
    assert clean(text) == kept


@given(st.text())
def test_cleaning_twice_changes_nothing_and_leaves_no_control(text: str) -> None:
    once = clean(text)
    assert clean(once) == once
    assert not [
        mark for mark in once if mark != "\n" and unicodedata.category(mark) in ("Cc", "Cs")
    ]
    assert "\n" not in clean(text, lines=False)
    once.encode("utf-8")


def test_a_long_note_is_kept_whole_and_a_longer_one_refused() -> None:
    assert clean_note("ä" * 20_000) == "ä" * 20_000
    with pytest.raises(Refused, match="20,001 characters"):
        clean_note("x" * 20_001)


def test_names_need_a_letter() -> None:
    with pytest.raises(Refused, match="name is empty"):
        clean_name("\x1b \n")
    with pytest.raises(Refused, match="81 characters"):
        clean_name("x" * 81)


def test_words_are_joined_and_counted() -> None:
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"], joint="or") == "a, b or c"
    assert listed(list("abcdefghij"), 3) == "a, b, c and 7 more"
    assert (plural(1, "tray"), plural(1200, "shelf", "shelves")) == ("1 tray", "1,200 shelves")
    assert nearest("sunflwr", ["Sunflower", "pea"]) == ' Did you mean "Sunflower"?'
    assert nearest("xyz", ["Sunflower"]) == ""
    assert fold("  Straße  Grün ") == "strasse grün"
