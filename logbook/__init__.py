"""A daily grow-room logbook in the terminal."""

__version__ = "0.1.0"
RELEASED = "2026-11-28"
"""The day of this version."""
