"""Templates: versions, copies, retiring, and files that are none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import (
    copy_template,
    list_templates,
    put_template,
    put_template_file,
    retire_template,
    show_template,
    write_version,
)
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.growing.crops.templates import Stage, area_words
from logbook.text import Refused
from tests.actions.days import counts
from tests.room import DAY, FIELD_TOML, crop_of, field_test


def test_a_template_is_versioned(book: Book) -> None:
    put_template(book, field_test(seed_grams=90.0), "less\x1b\nseed")
    shown = show_template(book, "Field  TEST")
    assert (shown.template.version, shown.template.seed_grams) == (2, 90)
    assert [(each.number, each.why, each.by) for each in shown.versions] == [
        (2, "less seed", "tester"),
        (1, "", "tester"),
    ]


def test_a_template_of_many_stages_comes_back_whole(book: Book) -> None:
    crop = crop_of(
        *(
            Stage(f"s{number}", DAY * (number + 1), water="top", water_per_day=0.5)
            for number in range(12)
        )
    )
    put_template(book, crop)
    assert show_template(book, "odd").template == crop


def test_a_copy_stands_for_itself(book: Book) -> None:
    copy_template(book, "sunflower", "sunflower, thick")
    put_template(book, replace(show_template(book, "sunflower, thick").template, seed_grams=150.0))
    assert show_template(book, "sunflower").template.seed_grams == 125
    with pytest.raises(Refused, match="already a template"):
        copy_template(book, "pea", "Sunflower")


def test_seed_and_what_is_expected_go_with_the_area_of_a_tray(book: Book) -> None:
    """Half of a tray of 50.8 x 25.4 cm; then one of 30 x 20 cm: 600 of 1290.32 cm²."""
    whole = show_template(book, "radish").template
    assert whole.seed_grams
    assert whole.expected_grams
    half = copy_template(book, "radish", "half", (254.0, 254.0))
    assert half.seed_grams == pytest.approx(whole.seed_grams / 2)
    assert half.expected_grams == pytest.approx(whole.expected_grams / 2)
    assert preview(book, SowDraft("half", 4)).seed_grams == pytest.approx(2 * whole.seed_grams)
    other = copy_template(book, "radish", "other", (300.0, 200.0))
    assert other.seed_grams == pytest.approx(whole.seed_grams * 600 / 1290.32, abs=0.01)
    # what was typed for the new tray stays; what was left is said
    typed = replace(whole, tray=(254.0, 254.0), seed_grams=20.0)
    assert typed.scaled_from(whole).seed_grams == 20
    assert area_words(typed, whole, "metric") == ""
    left = area_words(replace(whole, tray=(254.0, 254.0)), whole, "metric")
    assert left.startswith("The tray has 50 % of its former area: ")
    assert area_words(whole, whole, "metric") == ""


def test_a_retired_one_is_kept_and_can_come_back(book: Book) -> None:
    retire_template(book, "basil")
    assert "basil" not in [crop.name for crop in list_templates(book)]
    assert "basil" in [crop.name for crop in list_templates(book, retired=True)]
    assert show_template(book, "basil").retired
    retire_template(book, "basil", back=True)
    assert not show_template(book, "basil").retired


def test_an_unsafe_species_of_an_older_book_is_read_but_not_grown(book: Book) -> None:
    with book.writing() as act:
        old = field_test(name="tomato", crop="tomato", variety="")
        write_version(act.writer, old, by="AB", now=act.now, why="before it was refused")
    assert show_template(book, "tomato").template.crop == "tomato"
    with pytest.raises(Refused, match="nightshades"):
        sow(book, SowDraft("tomato", 2))
    with pytest.raises(Refused, match="nightshades"):
        copy_template(book, "tomato", "love apple")
    retire_template(book, "tomato")
    with pytest.raises(Refused, match="nightshades"):
        retire_template(book, "tomato", back=True)


def test_a_beginning_that_only_one_has_is_enough(book: Book) -> None:
    assert show_template(book, "pea").template.name == "pea shoots"
    with pytest.raises(Refused, match="matches several templates: basil, beet or broccoli"):
        show_template(book, "b")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "crop is empty"),
        (FIELD_TOML.replace("field test", "tomato", 1).encode(), "nightshades.*Source: EFSA"),
        (b"crop = ", "isn't TOML"),
        (b"\xff\xfe", "UTF-8 text"),
        (b"x" * 1_000_001, "larger than any template"),
        (FIELD_TOML.replace('"4d"', '"-4d"', 1).encode(), "negative"),
        (FIELD_TOML.replace("100", "nan").encode(), "real number"),
        (b'crop = "\\u001b[2J"\n[[stages]]\nname = "x"\n[cut]\nbest = "1d"\n', ""),
    ],
)
def test_a_file_that_is_no_template(book: Book, tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "crop\x1b.toml"
    path.write_bytes(content)
    before = counts(book)
    if not words:
        assert put_template_file(book, path).template.name == "[2J"
        assert show_template(book, "[2J").versions[0].why == "from crop.toml"
        return
    with pytest.raises(Refused, match=words):
        put_template_file(book, path)
    assert counts(book) == before


def test_a_file_with_a_mark_of_byte_order_is_read(book: Book, tmp_path: Path) -> None:
    path = tmp_path / "crop.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FIELD_TOML.replace("100", "90").encode())
    assert put_template_file(book, path).template.version == 2


def test_a_file_of_what_is_there_already_writes_nothing(book: Book, tmp_path: Path) -> None:
    path = tmp_path / "crop.toml"
    path.write_text(FIELD_TOML)
    before = counts(book)
    again = put_template_file(book, path)
    assert (again.written, again.template.version) == (False, 1)
    assert counts(book) == before


def test_no_file_and_a_folder(book: Book, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no file"):
        put_template_file(book, tmp_path / "none.toml")
    with pytest.raises(Refused, match="cannot be read"):
        put_template_file(book, tmp_path)


@pytest.mark.parametrize(
    ("typed", "name"),
    [("daikon", "radish"), ("arugula", "rocket"), ("Cilantro", "coriander"), ("beetroot", "beet"), ("bok choy", "pak choi"),
     ("shoots", "pea shoots"), ("pea tendrils", "pea shoots")],
)  # fmt: skip
def test_a_crop_is_found_by_its_other_name_or_a_word_of_it(
    book: Book, typed: str, name: str
) -> None:
    assert show_template(book, typed).template.name == name
