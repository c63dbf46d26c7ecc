"""Colours: blue is calm, orange wants you, grey is past. Never hue alone: a word goes with it."""

from __future__ import annotations

from textual.theme import Theme


def _own(past: str, rule: str, cursor: str, background: str, style: str) -> dict[str, str]:
    """Give our own variables: what is past, thin lines, and the line under the cursor.

    That line differs by its shade, or, where shades fail, is turned inside out.
    """
    return {
        "text-past": past,
        "rule": rule,
        "cursor-background": cursor,
        "cursor-style": style,
        "scrollbar": rule,
        "scrollbar-hover": rule,
        "scrollbar-background": background,
    }


DARK = Theme(
    name="logbook-dark",
    primary="#7db2dc",
    secondary="#8fb4cf",
    warning="#f0a04b",
    error="#f0a04b",
    success="#7db2dc",
    accent="#f0a04b",
    foreground="#d8dde2",
    background="#15191c",
    surface="#1c2024",
    panel="#2b3238",
    dark=True,
    variables=_own("#9ea8b1", "#4a555f", "#363d44", "#15191c", "bold"),
)
LIGHT = Theme(
    name="logbook-light",
    primary="#1f5f94",
    secondary="#2f6088",
    warning="#8f4700",
    error="#8f4700",
    success="#1f5f94",
    accent="#8f4700",
    foreground="#1d2328",
    background="#f7f7f4",
    surface="#efefea",
    panel="#dfe1dc",
    dark=False,
    variables=_own("#545b61", "#aeb4ae", "#d8dad4", "#f7f7f4", "bold"),
)
CONTRAST = Theme(
    name="logbook-contrast",
    primary="#9ad0ff",
    secondary="#9ad0ff",
    warning="#ffb454",
    error="#ffb454",
    success="#9ad0ff",
    accent="#ffb454",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#1c1c1c",
    dark=True,
    variables=_own("#dcdcdc", "#ffffff", "#000000", "#000000", "bold reverse"),
)


def _of_terminal(name: str, past: str) -> Theme:
    """Give a theme in the terminal's own colours."""
    return Theme(
        name=name,
        primary="ansi_bright_blue",
        secondary="ansi_bright_blue",
        warning="ansi_yellow",
        error="ansi_yellow",
        success="ansi_bright_blue",
        accent="ansi_yellow",
        foreground="ansi_default",
        background="ansi_default",
        surface="ansi_default",
        panel="ansi_default",
        boost="ansi_default",
        dark=True,
        ansi=True,
        variables={
            "block-cursor-background": "ansi_blue",
            "block-cursor-foreground": "ansi_bright_white",
            "block-cursor-blurred-background": "ansi_blue",
            "block-cursor-blurred-foreground": "ansi_bright_white",
            "input-selection-background": "ansi_blue",
            "input-cursor-background": "ansi_bright_white",
            "input-cursor-foreground": "ansi_black",
            "ansi-background": "ansi_black",
            "ansi-foreground": "ansi_white",
            "border": "ansi_blue",
            "border-blurred": "ansi_bright_black",
            "footer-background": "ansi_default",
        }
        | _own(past, past, "ansi_default", "ansi_default", "bold reverse"),
    )


TERMINAL = _of_terminal("logbook-terminal", "ansi_bright_black")
TERMINAL_CONTRAST = _of_terminal("logbook-terminal-contrast", "ansi_default")
THEMES = {"dark": DARK, "light": LIGHT, "contrast": CONTRAST, "terminal": TERMINAL}
"""The themes by their names in the settings."""


def theme_for(name: str, *, few_colours: bool = False) -> Theme:
    """Give the theme of a name in the settings.

    In a terminal of few colours, or none, mixed shades are lost: there its own palette is used.
    """
    if few_colours:
        return TERMINAL_CONTRAST if name == "contrast" else TERMINAL
    return THEMES[name]
