"""Screens of trials."""
