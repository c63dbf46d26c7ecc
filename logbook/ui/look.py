"""Colours: blue is calm, orange wants you, grey is past. Never hue alone: a word goes with it."""

from typing import Any

from textual.theme import Theme


def _theme(
    name: str, calm: str, calmer: str, wants: str, text: str, past: str, rule: str, cursor: str,
    background: str, surface: str, panel: str, *, turned: bool = False, **more: Any,
) -> Theme:  # fmt: skip
    """A theme of a few colours; Textual's others are the same ones again.

    That line differs by its shade, or, where shades fail, is turned inside out.
    """
    own = {
        "text-past": past, "rule": rule, "cursor-background": cursor,
        "cursor-style": "bold reverse" if turned else "bold", "scrollbar": rule,
        "scrollbar-hover": rule, "scrollbar-background": background,
    }  # fmt: skip
    return Theme(
        name=f"logbook-{name}", primary=calm, success=calm, secondary=calmer, warning=wants,
        error=wants, accent=wants, foreground=text, background=background, surface=surface,
        panel=panel, variables=more.pop("variables", {}) | own, **more,
    )  # fmt: skip


_OF_TERMINAL = {
    "block-cursor-background": "ansi_blue", "block-cursor-foreground": "ansi_bright_white",
    "block-cursor-blurred-background": "ansi_blue",
    "block-cursor-blurred-foreground": "ansi_bright_white",
    "input-selection-background": "ansi_blue", "input-cursor-background": "ansi_bright_white",
    "input-cursor-foreground": "ansi_black", "ansi-background": "ansi_black",
    "ansi-foreground": "ansi_white", "border": "ansi_blue", "border-blurred": "ansi_default",
    "footer-background": "ansi_default",
}  # fmt: skip


def _of_terminal(name: str, calm: str, wants: str) -> Theme:
    """A theme of the terminal's own colours.

    The text console's dark grey, blue and brown are too dark on its black for words that must be
    read: the past has the default colour.
    """
    default = "ansi_default"
    return _theme(
        name, calm, calm, wants, default, default, default, default, default, default, default,
        turned=True, boost=default, ansi=True, variables=_OF_TERMINAL,
    )  # fmt: skip


THEMES = {
    "dark": _theme(
        "dark", "#7db2dc", "#8fb4cf", "#f0a04b", "#d8dde2", "#9ea8b1", "#4a555f", "#363d44",
        "#15191c", "#1c2024", "#2b3238",
    ),
    "light": _theme(
        "light", "#1f5f94", "#2f6088", "#8f4700", "#1d2328", "#545b61", "#aeb4ae", "#d8dad4",
        "#f7f7f4", "#efefea", "#dfe1dc", dark=False,
    ),
    "contrast": _theme(
        "contrast", "#9ad0ff", "#9ad0ff", "#ffb454", "#ffffff", "#dcdcdc", "#ffffff", "#000000",
        "#000000", "#000000", "#1c1c1c", turned=True,
    ),
    "terminal": _of_terminal("terminal", "ansi_bright_cyan", "ansi_bright_yellow"),
}  # fmt: skip
"""The themes by their names in the settings."""


def theme_for(name: str, *, few_colours: bool = False) -> Theme:
    """The theme that a name in the settings stands for; few colours have the terminal's own.

    There "contrast" has none at all, for a terminal whose ground may be light or dark.
    """
    if few_colours:
        contrast = name == "contrast"
        bare = _of_terminal("terminal-contrast", "ansi_default", "ansi_default")
        return bare if contrast else THEMES["terminal"]
    return THEMES[name]
