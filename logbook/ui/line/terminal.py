"""What the terminal can show, as its environment tells."""

import os
from collections.abc import Mapping
from dataclasses import dataclass

COERCED = ("C.UTF-8", "C.utf8")
"""What Python writes into LC_CTYPE when the locale is C (PEP 538); it tells nothing."""


def few_colours(environ: Mapping[str, str]) -> bool:
    """Whether there are at most 16 colours, or none are wanted (NO_COLOR)."""
    if "NO_COLOR" in environ:
        return True
    asked = environ.get("TEXTUAL_COLOR_SYSTEM", "auto").strip().casefold()
    if asked != "auto":
        return asked not in ("truecolor", "256")
    if environ.get("COLORTERM", "").strip().casefold() in ("truecolor", "24bit"):
        return False
    terminal = environ.get("TERM", "").casefold()
    return not ("256color" in terminal or "kitty" in terminal)


def no_colours(environ: Mapping[str, str]) -> bool:
    """Whether there is none: a terminal of one colour by its name, or NO_COLOR."""
    terminal = environ.get("TERM", "").casefold()
    one = terminal.startswith(("vt1", "vt2", "vt3")) or terminal == "dumb"
    return "NO_COLOR" in environ or one or terminal.endswith(("-mono", "-m"))


def plain_signs(environ: Mapping[str, str], wanted: str = "auto") -> bool:
    """Whether lines, blocks, dashes and arrows must be drawn in ASCII.

    `wanted` is the setting: auto, plain or full. The text console's font lacks some of these; a
    locale that is not UTF-8 promises none of them.
    """
    if wanted != "auto":
        return wanted == "plain"
    return environ.get("TERM", "") == "linux" or "utf" not in _locale(environ).casefold()


def ascii_locale(environ: Mapping[str, str]) -> bool:
    """Whether the locale promises no sign but those of ASCII."""
    return _locale(environ) in ("", "C", "POSIX")


def _locale(environ: Mapping[str, str]) -> str:
    named = environ.get("LC_ALL", "") or environ.get("LC_CTYPE", "")
    if not named or (named in COERCED and not environ.get("LC_ALL")):
        named = environ.get("LANG", "")
    return named


@dataclass(frozen=True, slots=True)
class Display:
    """What the terminal can show; by default all."""

    few_colours: bool = False
    plain: bool = False
    encoding: str = "utf-8"
    colourless: bool = False
    signs: str = "utf-8"
    """The encoding that our own signs must have; people's letters go by `encoding`."""


def display_here(environ: Mapping[str, str], encoding: str | None, signs: str = "auto") -> Display:
    """What the terminal can show, by its variables and by its encoding."""
    plain = plain_signs(environ, signs)
    named = (encoding or "utf-8") if plain else "utf-8"
    ours = "ascii" if plain and ascii_locale(environ) else named
    return Display(few_colours(environ), plain, named, no_colours(environ), ours)


def has_shell() -> bool:
    """Whether a shell with job control started the program and can go on with it (POSIX orphaned groups)."""
    parent = os.getppid()
    try:
        return os.getpgid(parent) != os.getpgrp() and os.getsid(parent) == os.getsid(0)
    except OSError:
        return False
