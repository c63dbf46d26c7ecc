"""The sample book: an invented room with three months behind it and a lively day before it."""

from sample_db.building import build

__all__ = ["build"]
