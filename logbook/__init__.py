"""A daily grow-room logbook in the terminal."""

__version__ = "0.1.0"
