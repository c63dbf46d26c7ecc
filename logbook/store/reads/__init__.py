"""Reads by noun: plain SQL in, frozen values out."""
