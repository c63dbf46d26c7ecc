"""Yields and costs of the book."""
