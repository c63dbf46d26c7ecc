"""Crop templates."""
