"""A person's settings: a small TOML file in the settings folder. The room's own are in the book."""

import json
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from logbook.paths import settings_folder
from logbook.text import Refused, clean, nearest


@dataclass(frozen=True, slots=True)
class Settings:
    """theme: dark, light, terminal or contrast; signs: auto, plain (ASCII) or full;
    mouse: whether the app takes it;
    bell: whether it rings for a chore; by: who writes; keys: command → key.
    copies: the folder of copies ("": "copies" beside the book); keep_daily: how many daily copies
    stay (0: none are made by themselves), keep_weekly and keep_monthly: of how many weeks and
    months the last copy stays; copies_percent: how much of their disk all copies may take.
    """  # noqa: D205

    theme: str = "dark"
    mouse: bool = False
    bell: bool = True
    by: str = ""
    copies: str = ""
    keep_daily: int = 7
    keep_weekly: int = 8
    keep_monthly: int = 24
    copies_percent: int = 10
    signs: str = "auto"
    keys: Mapping[str, str] = field(default_factory=dict)


MOST_KEPT = 1000
_KINDS = {
    str: "a text in quotes", bool: "true or false", int: "a whole number", dict: "a table",
}  # fmt: skip
THEMES = ("dark", "light", "terminal", "contrast")
SIGNS = ("auto", "plain", "full")


def settings_path() -> Path:
    """The settings file's path."""
    return settings_folder() / "settings.toml"


def read_settings(path: Path | None = None) -> Settings:
    """Read the settings; raise Refused with what is wrong in the file. No file: the defaults."""
    file = path or settings_path()
    try:
        given = tomllib.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as fault:
        raise Refused(f"The settings file {file} cannot be read: {fault}.") from fault
    try:
        return _checked(given)
    except Refused as wrong:
        raise naming_file(wrong, file) from wrong


def keep_setting(name: str, value: str | bool, path: Path | None = None) -> Path:
    """Write one setting into the file and leave all else; raise Refused where that fails."""
    file = path or settings_path()
    said, line = f"{name} = {json.dumps(value)}", re.compile(rf"\s*{name}\s*=")
    try:
        read_settings(file)
        lines = file.read_text(encoding="utf-8").splitlines() if file.exists() else []
        tables = next((at for at, each in enumerate(lines) if each.lstrip().startswith("[")), None)
        at = next((at for at, each in enumerate(lines[:tables]) if line.match(each)), None)
        lines[slice(0, 0) if at is None else slice(at, at + 1)] = [said]
        file.parent.mkdir(parents=True, exist_ok=True)
        made = file.with_name(f"{file.name}.new")
        made.write_text("\n".join(lines) + "\n", encoding="utf-8")
        made.replace(file)
    except OSError as fault:
        raise Refused(f"The settings file {file} cannot be written: {fault}.") from fault
    return file


def naming_file(wrong: Refused, file: Path | None = None) -> Refused:
    """What is wrong in the settings with the file in which it is to be changed."""
    return Refused(f"{wrong} The settings are in {file or settings_path()}.")


def _checked(given: Mapping[str, Any]) -> Settings:
    known = {each.name: type(each.default) for each in fields(Settings)} | {"keys": dict}
    for key, value in given.items():
        if key not in known:
            raise Refused(f'The settings file has no "{key}".{nearest(key, list(known))}')
        if type(value) is not known[key]:
            raise Refused(f'"{key}" in the settings file must be {_KINDS[known[key]]}.')
        most = 100 if key == "copies_percent" else MOST_KEPT
        if isinstance(value, int) and not 0 <= value <= most:
            raise Refused(f'"{key}" in the settings file must be 0 to {most}.')
    if given.get("theme", "dark") not in THEMES:
        raise Refused(f'The theme "{clean(given["theme"])}" is unknown; use {", ".join(THEMES)}.')
    if given.get("signs", "auto") not in SIGNS:
        raise Refused(f'"signs" in the settings file must be one of {", ".join(SIGNS)}.')
    for name, key in given.get("keys", {}).items():
        if not isinstance(key, str):
            raise Refused(f'The key of "{clean(name)}" in the settings file must be in quotes.')
    return Settings(**given)
