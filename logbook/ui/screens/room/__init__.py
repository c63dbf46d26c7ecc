"""Screens of the room."""
