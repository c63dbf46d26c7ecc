"""The daily commands."""
