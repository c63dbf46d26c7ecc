"""The scrollbar: a thin line whose thick part shows what is in view, with or without colours."""

from rich.color import Color, ColorType
from rich.segment import Segment, Segments
from rich.style import Style
from textual.scrollbar import ScrollBarRender

UNSET = Color("default", ColorType.DEFAULT)


class Thumb(ScrollBarRender):
    """Draws a scrollbar by its signs, so that it is seen where there are no colours."""

    @classmethod
    def render_bar(
        cls, size: int = 25, virtual_size: float = 50, window_size: float = 20, position: float = 0,
        thickness: int = 1, vertical: bool = True, back_color: Color = UNSET,
        bar_color: Color = UNSET,
    ) -> Segments:  # fmt: skip
        """Draw a bar of `size` cells; a click above or below the thumb goes a page."""
        style = Style(color=bar_color, bgcolor=back_color)
        thin, thick = ("│", "┃") if vertical else ("─", "━")
        start = end = 0
        if window_size and size and virtual_size > window_size:
            long = max(1, min(size, round(size * window_size / virtual_size)))
            start = round((size - long) * position / (virtual_size - window_size))
            end = start + long
        parts = []
        for at in range(int(size)):
            here = "grab" if start <= at < end else "scroll_up" if at < start else "scroll_down"
            sign = thick if here == "grab" else thin if end else " "
            parts.append(Segment(sign * thickness, style + Style(meta={"@mouse.down": here})))
        return Segments(parts, new_lines=vertical)
