"""Screens of seed."""
