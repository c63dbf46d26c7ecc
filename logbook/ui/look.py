"""Colours: blue is calm, orange wants you, grey is past. Never hue alone: a word goes with it."""

from __future__ import annotations

from textual.theme import Theme

DARK = Theme(
    name="logbook-dark",
    primary="#6fa8d6",
    secondary="#8fb4cf",
    warning="#f0a04b",
    error="#f0a04b",
    success="#6fa8d6",
    accent="#f0a04b",
    foreground="#d8dde2",
    background="#14181c",
    surface="#1a1f24",
    panel="#232a31",
    dark=True,
    variables={"text-past": "#8a949e", "rule": "#3a444e"},
)
LIGHT = Theme(
    name="logbook-light",
    primary="#1f5f94",
    secondary="#3b6f99",
    warning="#a85400",
    error="#a85400",
    success="#1f5f94",
    accent="#a85400",
    foreground="#1d2328",
    background="#f7f7f4",
    surface="#efefea",
    panel="#e4e5e0",
    dark=False,
    variables={"text-past": "#666e75", "rule": "#c4c8c4"},
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
    variables={"text-past": "#c8c8c8", "rule": "#ffffff"},
)
TERMINAL = Theme(
    name="logbook-terminal",
    primary="ansi_bright_blue",
    secondary="ansi_blue",
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
    variables={
        "text-past": "ansi_bright_black",
        "rule": "ansi_bright_black",
        "block-cursor-background": "ansi_blue",
        "block-cursor-foreground": "ansi_bright_white",
        "block-cursor-blurred-background": "ansi_blue",
        "block-cursor-blurred-foreground": "ansi_bright_white",
        "input-selection-background": "ansi_blue",
        "input-cursor-background": "ansi_bright_white",
        "input-cursor-foreground": "ansi_black",
        "border": "ansi_blue",
        "border-blurred": "ansi_bright_black",
        "footer-background": "ansi_default",
    },
)
THEMES = {"dark": DARK, "light": LIGHT, "contrast": CONTRAST, "terminal": TERMINAL}
