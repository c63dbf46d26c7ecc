"""What a screen paints under test: once when all is at rest, not at each step to there.

Nobody sees what is painted without a terminal; it takes a quarter of the time of a story. What was
at rest and is not looked at is painted before the next key, so that nothing stays that cannot be.
Another sixth of it is reading the style sheets, which are the same for each app of a theme.
"""

from __future__ import annotations

from typing import Any

import pytest
from textual._context import visible_screen_stack
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.screen import Screen

_paint = Screen._compositor_refresh


def paint(screen: Screen[Any]) -> None:
    """Paint what has changed since it was painted, or looked at, last."""
    _paint(screen)


def look_at(screen: Screen[Any]) -> list[str]:
    """The lines of a screen; that is painted too."""
    visible_screen_stack.set(screen.app._background_screens)
    strips = screen._compositor.render_strips()
    screen._compositor._dirty_regions.clear()
    return ["".join(segment.text for segment in strip) for strip in strips]


def paint_at_rest(patch: pytest.MonkeyPatch) -> None:
    """Let screens without a terminal be painted by `paint` alone."""

    def note(screen: Screen[Any]) -> None:
        if screen.app.is_headless and screen is screen.app.screen:
            screen._dirty_widgets.clear()  # the compositor knows which regions they cover
            screen.app._update_mouse_over(screen)
        else:
            _paint(screen)

    patch.setattr(Screen, "_compositor_refresh", note)


def read_styles_once(patch: pytest.MonkeyPatch) -> None:
    """Let a style sheet be read once for all apps with the same colours: rules are never changed."""
    read, known = Stylesheet._parse_rules, dict[object, list[RuleSet]]()

    def rules(self: Stylesheet, css: str, *args: Any, **kwargs: Any) -> list[RuleSet]:
        colours = frozenset(self._variables.items())
        wanted = (css, args, tuple(kwargs.items()), colours)
        if wanted not in known:
            known[wanted] = read(self, css, *args, **kwargs)
        return known[wanted]

    patch.setattr(Stylesheet, "_parse_rules", rules)
