"""A tab's process knows that its server is gone, also when there was nothing to write."""

from __future__ import annotations

import os

from logbook.ui.line.watchdog import terminal_is_gone


def test_a_pipe_whose_server_is_gone_is_a_terminal_that_is_gone() -> None:
    reading, writing = os.pipe()
    assert not terminal_is_gone(reading)
    os.close(writing)
    assert terminal_is_gone(reading)
    os.close(reading)
    assert terminal_is_gone(reading)
