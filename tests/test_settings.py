"""The settings file: what it may hold, and what is said when it holds something else."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.settings import Settings, keep_setting, read_settings, settings_path
from logbook.text import HARMFUL, Refused
from logbook.ui.app import LogbookApp
from logbook.ui.commands import with_keys
from logbook.ui.screens import own_commands
from tests.nasty import TEXT


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
        ("keys = " + "[" * 5000, "cannot be read"),
    ],
)
def test_what_is_wrong_is_one_sentence(tmp_path: Path, text: str, sentence: str) -> None:
    file = tmp_path / "settings.toml"
    file.write_text(text)
    with pytest.raises(Refused) as refused:
        read_settings(file)
    assert sentence in str(refused.value)
    assert str(file) in str(refused.value)


def test_a_wrong_key_names_the_file_that_gives_it() -> None:
    with pytest.raises(Refused, match="which is not a command") as refused:
        LogbookApp(None, Settings(keys={"foo": "f"}))
    assert str(settings_path()) in str(refused.value)


VALUES = st.one_of(
    TEXT, st.booleans(), st.integers(-(2**70), 2**70), st.floats(), st.dates(),
    st.lists(TEXT, max_size=2), st.dictionaries(TEXT, TEXT | st.integers(), max_size=2),
)  # fmt: skip


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    st.dictionaries(
        st.sampled_from([each.name for each in fields(Settings)]) | TEXT, VALUES, max_size=3
    )
)
def test_any_file_is_read_or_refused_with_a_sentence(
    tmp_path: Path, given_settings: dict[str, object]
) -> None:
    file = tmp_path / "settings.toml"
    file.write_bytes(tomli_w.dumps(given_settings).encode("utf-8", "replace"))
    said = ""
    try:
        found = read_settings(file)
        with_keys(found.keys, own_commands())
    except Refused as refused:
        said = str(refused)
    assert not HARMFUL.search(said), said


def test_one_setting_is_kept_and_all_else_stays(tmp_path: Path) -> None:
    file = tmp_path / "made" / "settings.toml"
    keep_setting("theme", "light", file)
    file.write_text('# mine\nby = "ab"\ntheme = "light"\n[keys]\njot = "J"\n', encoding="utf-8")
    keep_setting("theme", "contrast", file)
    assert file.read_text(encoding="utf-8") == (
        '# mine\nby = "ab"\ntheme = "contrast"\n[keys]\njot = "J"\n'
    )
    keep_setting("signs", "plain", file)
    assert read_settings(file).signs == "plain"
