"""The manual page: everything is in it, and roff takes none of its words for a request."""

from __future__ import annotations

import re
import shutil
import subprocess

import click
import pytest

from logbook.cli.app import top_context
from logbook.cli.argument_words import argument_words
from logbook.cli.listing import every_command, words_of
from logbook.cli.manual import manual_page, plain

REQUESTS = {".TH", ".SH", ".SS", ".PP", ".TP", ".B", ".EX", ".EE"}


def test_it_has_every_command_and_every_option() -> None:
    page = manual_page()
    for ctx, command in every_command(top_context()):
        assert f'.SS "{plain(words_of(ctx))}' in page
        for option in command.params:
            if isinstance(option, click.Option):
                assert plain(option.opts[0]) in page


def test_it_says_what_every_argument_is() -> None:
    for ctx, command in every_command(top_context()):
        for argument in command.params:
            if isinstance(argument, click.Argument):
                assert argument_words(words_of(ctx), argument.name or ""), (
                    words_of(ctx),
                    argument.name,
                )


def test_every_exit_code_is_in_it() -> None:
    for code, meant in (
        (0, "done"),
        (1, "refused"),
        (2, "when a part"),
        (3, "not be printed"),
        (130, "Ctrl"),
    ):
        assert re.search(rf"{code} [a-z\s']*{meant}", manual_page().replace("\n", " "))


def test_every_request_is_meant() -> None:
    begun = re.findall(r"^[.'](?:\S*)", manual_page(), re.MULTILINE)
    assert set(begun) <= REQUESTS
    assert manual_page().isascii()


@pytest.mark.parametrize(
    ("text", "safe"),
    [
        (".SH no heading", r"\&.SH no heading"),
        ("'quoted", r"\&'quoted"),
        ("--at", r"\-\-at"),
        ("a\\b", r"a\eb"),
        ("µ", r"\[u00B5]"),
    ],
)
def test_a_text_is_no_request(text: str, safe: str) -> None:
    assert plain(text) == safe


@pytest.mark.skipif(shutil.which("groff") is None, reason="groff is not on this machine")
def test_groff_formats_it_without_a_word_of_complaint() -> None:
    ran = subprocess.run(
        ["groff", "-man", "-Tutf8", "-ww"],
        input=manual_page(), capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert ran.stderr == ""
    shown = re.sub(r"\x1b\[[\d;]*m", "", ran.stdout)
    assert "logbook weigh 101 283" in shown
    assert "--brief" in shown


@pytest.mark.skipif(shutil.which("mandoc") is None, reason="mandoc is not on this machine")
def test_mandoc_finds_no_fault_but_of_style() -> None:
    ran = subprocess.run(
        ["mandoc", "-T", "lint", "-W", "warning"],
        check=False,
        input=manual_page(),
        capture_output=True,
        text=True,
    )
    assert ran.stdout == ""
