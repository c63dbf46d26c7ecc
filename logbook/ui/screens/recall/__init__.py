"""Screens about holds and recalls."""
