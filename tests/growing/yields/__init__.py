"""Yields."""
