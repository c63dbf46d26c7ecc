"""Shapes of answers that no types say: crop templates, whose keys are those of their files."""

from __future__ import annotations

from logbook.cli.answers import ByHand

BY_HAND: dict[str, ByHand] = {}
"""By "module:Class" of what is written."""
