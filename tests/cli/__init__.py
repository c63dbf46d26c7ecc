"""The plain commands."""
