"""Screens of crop templates."""
