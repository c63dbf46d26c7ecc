"""The rules of the trade."""
