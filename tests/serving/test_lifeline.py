"""A tab's process knows that its server is gone, also when there was nothing to write."""

from __future__ import annotations

import os
import sys

import pytest

from logbook.ui.lifeline import terminal_is_gone


def test_a_pipe_whose_server_is_gone_is_a_terminal_that_is_gone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    reading, writing = os.pipe()
    with os.fdopen(reading) as ours:
        monkeypatch.setattr(sys, "__stdin__", ours)
        assert not terminal_is_gone(piped=True)
        os.close(writing)
        assert terminal_is_gone(piped=True)
        assert not terminal_is_gone()
