"""Screens of costs."""
