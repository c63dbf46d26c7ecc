"""Screens about records that rules ask for."""
