"""The settings file: what it may hold, and what is said when it holds something else."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.settings import Settings, read_settings
from logbook.text import Refused


def test_no_file_gives_the_defaults(tmp_path: Path) -> None:
    assert read_settings(tmp_path / "none.toml") == Settings()


def test_what_is_written_is_read(tmp_path: Path) -> None:
    file = tmp_path / "settings.toml"
    file.write_text(
        'theme = "contrast"\nsigns = "plain"\nmouse = true\nby = "ab"\n[keys]\nweigh = "y"\n'
    )
    assert read_settings(file) == Settings(
        theme="contrast", signs="plain", mouse=True, by="ab", keys={"weigh": "y"}
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('thme = "dark"', 'has no "thme". Did you mean "theme"?'),
        ('theme = "pink"', "use dark, light, terminal, contrast"),
        ('signs = "some"', "must be one of auto, plain, full"),
        ('mouse = "yes"', "must be true or false"),
        ("keys = 3", "must be a table"),
        ("[keys]\nweigh = 3", 'The key of "weigh" in the settings file must be in quotes.'),
        ("keep_daily = -1", "must be 0 to 1000"),
        ("theme =", "cannot be read"),
    ],
)
def test_what_is_wrong_is_one_sentence(tmp_path: Path, text: str, sentence: str) -> None:
    file = tmp_path / "settings.toml"
    file.write_text(text)
    with pytest.raises(Refused) as refused:
        read_settings(file)
    assert sentence in str(refused.value)
