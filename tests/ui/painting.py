"""What a screen paints under test: once when all is at rest, not at each step to there.

Nobody sees what is painted without a terminal; it takes a quarter of the time of a story.
"""

from __future__ import annotations

from typing import Any

import pytest
from textual.screen import Screen

_paint = Screen._compositor_refresh


def paint(screen: Screen[Any]) -> None:
    """Paint what has changed since it was painted last."""
    _paint(screen)


def paint_at_rest(patch: pytest.MonkeyPatch) -> None:
    """Let screens without a terminal be painted by `paint` alone."""

    def note(screen: Screen[Any]) -> None:
        if screen.app.is_headless and screen is screen.app.screen:
            screen._dirty_widgets.clear()  # the compositor knows which regions they cover
            screen.app._update_mouse_over(screen)
        else:
            _paint(screen)

    patch.setattr(Screen, "_compositor_refresh", note)
