"""The look holds where colours, signs and room are few."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.content import Content
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.settings import Settings
from logbook.ui.app import LogbookApp
from logbook.ui.line.plain import PlainSigns, plain_text
from logbook.ui.line.terminal import Display, few_colours, no_colours, plain_signs
from logbook.ui.look import THEMES, theme_for
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import RecallSubject, TraceSubject
from logbook.ui.widgets.line_input import LineInput
from logbook.ui.widgets.thumb import Thumb
from logbook.ui.widgets.walk_list import Row, WalkList
from tests.conftest import SampleMaker
from tests.pictures.drawing import CONSOLE, hex_of
from tests.pictures.shots import NOW
from tests.ui.forms_room import play
from tests.ui.racks_book import fits, small_book
from tests.ui.steps import press, said, settle, until

OPEN = (
    "round", "racks", "due", "page", "sow", "weigh", "templates", "template", "places", "place",
    "light", "air", "bills", "trials", "trial_form", "handbook", "chapter",
)  # fmt: skip
FILLED = (
    "deliveries", "customers", "plan", "costs", "yields", "cold", "trace", TraceSubject("SU-48A"),
    "holds", RecallSubject("SU-48A", NOW), "upkeep", "records", "seed",
)  # fmt: skip
"""Screens that say little in a small book."""


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return small_book(tmp_path)


# what the terminal can show


@pytest.mark.parametrize(
    ("environ", "few"),
    [
        ({"TERM": "xterm-256color"}, False),
        ({"TERM": "screen-256color"}, False),
        ({"TERM": "tmux-256color"}, False),
        ({"TERM": "xterm", "COLORTERM": "truecolor"}, False),
        ({"TERM": "xterm-kitty"}, False),
        ({"TERM": "linux"}, True),
        ({"TERM": "screen"}, True),
        ({"TERM": "xterm"}, True),
        ({}, True),
        ({"TERM": "xterm-256color", "NO_COLOR": ""}, True),
        ({"TERM": "linux", "TEXTUAL_COLOR_SYSTEM": "truecolor"}, False),
        ({"TERM": "xterm-256color", "TEXTUAL_COLOR_SYSTEM": "standard"}, True),
    ],
)
def test_few_colours_are_told_by_the_environment(environ: dict[str, str], few: bool) -> None:
    assert few_colours(environ) is few


@pytest.mark.parametrize(
    ("environ", "plain"),
    [
        ({"LANG": "en_GB.UTF-8"}, False),
        ({"LANG": "de_DE.utf8"}, False),
        ({"LC_ALL": "C.UTF-8"}, False),
        ({"LC_CTYPE": "en_US.UTF-8", "LANG": "C"}, False),
        ({"LANG": "C"}, True),
        ({}, True),
        ({"LANG": "C", "LC_CTYPE": "C.UTF-8"}, True),  # Python's own doing (PEP 538)
        ({"LANG": "en_US.ISO-8859-1"}, True),
        ({"LC_ALL": "POSIX", "LANG": "en_GB.UTF-8"}, True),
        ({"LANG": "en_GB.UTF-8", "TERM": "linux"}, True),
    ],
)
def test_plain_signs_are_told_by_the_environment(environ: dict[str, str], plain: bool) -> None:
    assert plain_signs(environ) is plain
    assert plain_signs(environ, "plain")
    assert not plain_signs(environ, "full")


@pytest.mark.parametrize(
    ("terminal", "none"),
    [("vt100", True), ("vt220", True), ("xterm-mono", True), ("linux-m", True), ("dumb", True),
     ("linux", False), ("xterm", False), ("xterm-256color", False)],
)  # fmt: skip
def test_terminals_of_one_colour_get_none(terminal: str, none: bool) -> None:
    assert no_colours({"TERM": terminal}) is none
    assert no_colours({"TERM": terminal, "NO_COLOR": "1"})


# plain signs


@given(st.text())
def test_plain_text_is_as_wide_as_it_was(text: str) -> None:
    assert cell_len(plain_text(text)) == cell_len(text)
    for encoding in ("latin-1", "ascii"):
        plain = plain_text(text, encoding)
        assert cell_len(plain) == cell_len(text)
        plain.encode(encoding)


def test_dots_of_a_chart_become_marks_by_their_number() -> None:
    assert plain_text("⠀⠁⠃⠇⡇⣇⣧⣷⣿") == " ..::**##"


def test_letters_of_people_stay_and_our_signs_become_ascii() -> None:
    assert plain_text("▌ Möhre – 21.4° 景 … ─│█") == "| Möhre - 21.4° 景 ~ -|#"
    assert plain_text("Möhre 景", "ascii") == "M?hre ??"


def test_degrees_and_spreads_are_read_on_every_terminal() -> None:
    words = "21.4 °C, 304 g ± 21, ±5 %, spread ±"
    for encoding in ("utf-8", "latin-1"):  # both signs are in the fonts of the Linux console
        assert plain_text(words, encoding) == words
    assert plain_text(words, "ascii") == "21.4 oC, 304 g+/-21,+-5 %, spread+-"
    assert plain_text("±5", "ascii") == "~5"


@pytest.mark.parametrize("name", OPEN)
def test_a_screen_in_plain_signs_is_ascii_and_as_wide(book: Book, name: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.go(name)
        await settle(pilot)
        lines = [
            [segment.text for segment in pilot.app._signs.apply(list(strip), Color(0, 0, 0))]  # type: ignore[union-attr]
            for strip in pilot.app.screen._compositor.render_strips()
        ]
        text = "\n".join("".join(line) for line in lines)
        for sign in "─│┃▌█▓▒░└┤┬⠢–…·→←↑↓":
            assert sign not in text
        assert all(cell_len("".join(line)) == 80 for line in lines)
        assert "down next line" in text or name not in ("sow", "template", "place", "trial_form")

    play(LogbookApp(book, display=Display(plain=True)), story)


# colours


def luminance(color: Color) -> float:
    """Give the relative luminance (W3C, WCAG 2.1, definition; from memory)."""
    parts = [part / 255 for part in color.rgb]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@cache
def contrast(one: str, other: str) -> float:
    """Give the contrast ratio (same source): 1 for none, 21 for black on white."""
    light, dark = sorted((luminance(Color.parse(one)), luminance(Color.parse(other))), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_on_white_is_21() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize(("name", "least"), [("dark", 4.5), ("light", 4.5), ("contrast", 7)])
def test_text_stands_out_from_what_it_stands_on(name: str, least: float) -> None:
    theme = THEMES[name]
    texts = [theme.foreground, theme.primary, theme.secondary, theme.warning]
    texts.append(theme.variables["text-past"])
    for ground in (theme.background, theme.panel, theme.variables["cursor-background"]):
        for text in texts:
            assert contrast(str(text), str(ground)) >= least, (text, ground)


SIGNS = set("─│┃━▁▔▏▎▍▌▋▊▉█▓▒░ ·")


def _faint(pilot: Pilot[None]) -> list[str]:
    """What must be read on the screen and has less contrast than 4.5."""
    found = []
    for strip in pilot.app.screen._compositor.render_strips():
        for segment in strip:
            style = segment.style
            if style is None or set(segment.text) <= SIGNS:
                continue
            front = hex_of(style.color, CONSOLE["default"])
            back = hex_of(style.bgcolor, CONSOLE["black"])
            if contrast(front, back) < 4.5:
                found.append(f"{segment.text.strip()!r}: {front} on {back}")
    return found


def test_all_that_must_be_read_stands_out_on_every_screen(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        for screen in OPEN:
            app.go(screen)
            await settle(pilot)
            for name in THEMES:
                app.use_colours(name)
                await settle(pilot)
                assert not _faint(pilot), (screen, name)

    play(LogbookApp(book), story, (160, 50))


def test_all_that_must_be_read_stands_out_on_screens_of_a_sample(
    sample_book: SampleMaker, tmp_path: Path
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        for about in FILLED:
            app.go(about)
            await settle(pilot)
            if about == "plan":
                await press(pilot, "J", *"500g daikon fri")
                assert not isinstance(app.screen, LogScreen)
            for name in THEMES:
                app.use_colours(name)
                await settle(pilot)
                assert not _faint(pilot), (about, name)
            if about == "plan":
                await press(pilot, "escape")

    book = sample_book(tmp_path / "sample.book", NOW, "Europe/Lisbon")
    play(LogbookApp(book), story, (160, 50))


def test_all_that_must_be_read_stands_out_in_open_questions(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.go("racks")
        await settle(pilot)
        for key in ("j", "l", "m", "i", "semicolon", "question_mark"):
            await press(pilot, key)
            assert not isinstance(app.screen, LogScreen), key
            for name in THEMES:
                app.use_colours(name)
                await settle(pilot)
                assert not _faint(pilot), (key, name)
            await press(pilot, "escape")

    play(LogbookApp(book), story, (160, 50))


def test_blue_and_orange_differ_in_lightness_too() -> None:
    for theme in (THEMES["dark"], THEMES["light"], THEMES["contrast"]):
        assert str(theme.primary) != str(theme.warning)
        assert Color.parse(str(theme.primary)).b > Color.parse(str(theme.primary)).r
        assert Color.parse(str(theme.warning)).r > Color.parse(str(theme.warning)).b


def _grounds_of_the_line_typed_into(pilot: Pilot[None]) -> set[str]:
    """The colours that its cells stand on as they are seen."""
    field = pilot.app.focused
    assert isinstance(field, LineInput)
    region, grounds, at = field.region, set(), 0
    for segment in pilot.app.screen._compositor.render_strips()[region.y]:
        style = segment.style or Style()
        colours = hex_of(style.color, CONSOLE["default"]), hex_of(style.bgcolor, CONSOLE["black"])
        if region.x <= at < region.right:
            grounds.add(colours[0 if style.reverse else 1])
        at += segment.cell_length
    return grounds


@pytest.mark.parametrize(
    ("name", "few"), [("light", False), ("terminal", False), ("contrast", True)]
)
def test_every_theme_draws_every_screen(book: Book, name: str, few: bool) -> None:
    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        assert app.theme == theme_for(name, few_colours=few).name
        for screen in ("round", "racks", "weigh", "sow"):
            app.go(screen)
            await settle(pilot)
            assert fits(pilot, (80, 24)), screen
        assert len(_grounds_of_the_line_typed_into(pilot)) == 2, "an empty field shows its caret"

    play(LogbookApp(book, Settings(theme=name), display=Display(few_colours=few)), story)


@pytest.mark.parametrize("name", ["contrast", "terminal"])
def test_the_cursor_is_seen_without_shades(book: Book, name: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        walk = pilot.app.screen.query_one(WalkList)
        line = walk._starts[walk.highlighted or 0]
        drawn = list(walk.render_line(line))
        assert all(
            segment.style and segment.style.reverse for segment in drawn if segment.text.strip()
        )
        assert not any(s.style and s.style.reverse for s in walk.render_line(line + 1))

    play(LogbookApp(book, Settings(theme=name)), story)


def test_the_cursor_row_is_not_cut_before_the_scrollbar(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        walk = pilot.app.screen.query_one(WalkList)
        walk.show([Row(Content(f"tray {number}"), str(number)) for number in range(90)])
        await settle(pilot)
        assert walk.highlighted is not None
        assert "…" not in walk.render_line(walk.highlighted).text

    play(LogbookApp(book, Settings(theme="contrast")), story)


def test_the_next_colours_come_by_a_key(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for name in ("light", "contrast", "terminal", "dark"):
            await press(pilot, "V")
            await until(pilot, lambda name=name: f"Colours: {name}." in said(pilot))  # type: ignore[misc]
            assert pilot.app.theme == THEMES[name].name

    play(LogbookApp(book), story)


# room


@given(
    size=st.integers(1, 60),
    virtual=st.integers(1, 5_000),
    window=st.integers(0, 60),
    at=st.floats(0, 1),
    vertical=st.booleans(),
)
def test_the_thumb_is_in_the_bar_and_never_lost(
    size: int, virtual: int, window: int, at: float, vertical: bool
) -> None:
    position = at * max(0, virtual - window)
    bar = Thumb.render_bar(size, virtual, window, position, vertical=vertical)
    drawn = "".join(part.text for part in bar.segments if isinstance(part, Segment))
    assert len(drawn) == size
    thick = drawn.strip("│─ ")
    if window and virtual > window:
        assert thick
        assert set(thick) <= set("┃━")
    else:
        assert not thick


def test_settings_are_tried_as_they_are_chosen_and_kept_or_taken_back(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept: dict[str, object] = {}
    told: list[str] = []
    monkeypatch.setattr("logbook.actions.initials.set_initials", told.append)

    async def story(pilot: Pilot[None]) -> None:
        app = pilot.app
        assert isinstance(app, LogbookApp)
        app.keep_setting = lambda name, value: kept.update({name: value}) or "settings.toml"
        await press(pilot, "semicolon", *"lig")
        assert app.colours == "light"
        await press(pilot, "down", *"plain")
        assert any(isinstance(each, PlainSigns) for each in app.get_line_filters())
        await press(pilot, "escape")
        assert (app.colours, kept) == ("dark", {})
        assert not any(isinstance(each, PlainSigns) for each in app.get_line_filters())
        await press(pilot, "semicolon", "enter", "enter", "n", "enter", "x", "y", "enter")
        assert "Saved in settings.toml." in said(pilot)
        assert not app.settings.bell

    play(LogbookApp(book), story)
    assert kept == {"bell": False, "by": "xy"}
    assert told == ["xy"]
    assert book.by == "xy"
