"""Copying what a screen shows out of the program."""

from __future__ import annotations

from logbook.paths import state_folder, write_private
from logbook.text import plural
from logbook.ui.sitting import Sitting

MOST_HANDED_OVER = 50_000
"""Letters of a copy that terminals still take; a longer one is cut off or not taken at all."""


def copy_out(app: Sitting, words: str) -> None:
    """Hand a text to the terminal, and keep it in a file, for not every terminal takes it."""
    if not words:
        app.say("There is nothing to copy here.")
        return
    if len(words) <= MOST_HANDED_OVER:
        app.copy_to_clipboard(words)
    path = state_folder() / "copied.txt"
    try:
        write_private(path, words + "\n")
    except OSError as fault:
        app.say(f"Handed to the terminal alone: {path}: {fault.strerror}.", wants=True)
        return
    lines = words.count("\n") + 1
    app.say(
        f"Copied {plural(lines, 'line')} to the clipboard, if the terminal allows it, and to {path}."
    )
