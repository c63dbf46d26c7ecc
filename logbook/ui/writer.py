"""Who writes: asked once at a terminal where nothing says so."""

from __future__ import annotations

from contextlib import suppress

from logbook.settings import settings_path
from logbook.text import Refused, clean_name
from logbook.ui.forms.asking import AskLine
from logbook.ui.sitting import Sitting


async def ask_who(app: Sitting) -> None:
    """Ask who writes at this terminal, if nothing says so; raise Refused for no answer."""
    async with app.one_asks:
        remember = app.remember_writer
        if remember is None:
            return
        name = await app.push_screen_wait(
            AskLine(
                "Who writes at this terminal?",
                lambda text: clean_name(text, "initials"),
                start=app.book.by,
                replaced=True,
                hint="enter take it   esc back   "
                f'To be asked no more: write by = "ab" in {settings_path()}',
            )
        )
        if name is None:
            raise Refused("Nothing was written.")
        app.remember_writer = None
        with suppress(Refused):
            remember(name)
        app.book.by = name
