"""Buying, weighing and testing seed, and the store of it."""
