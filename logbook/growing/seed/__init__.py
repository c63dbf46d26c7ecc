"""Seed: how much of a lot is left, and how much of it comes up."""
