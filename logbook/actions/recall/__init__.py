"""Putting things on hold, releasing them, calling back what went out."""
