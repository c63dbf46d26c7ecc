"""Grams in the words of a trial: whole grams for trays, more digits for small or near values."""

from __future__ import annotations

from logbook.growing.measures import number_words


def grams_of(value: float) -> str:
    """Write grams: "149 g", "14.9 g", "0.865 g"."""
    size = abs(value)
    digits = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 1 else 3
    text = number_words(value, digits)
    return f"{'0' if text == '-0' else text} g"


def percent_of(value: float) -> str:
    """Write a share in %: "25 %", "8.4 %"."""
    text = number_words(value, 0 if abs(value) >= 10 else 1)
    return f"{'0' if text == '-0' else text} %"
