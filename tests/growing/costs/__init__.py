"""Costs."""
