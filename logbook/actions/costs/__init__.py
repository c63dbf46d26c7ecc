"""Costs of the book: what is typed, and what it comes to by batch and crop."""
