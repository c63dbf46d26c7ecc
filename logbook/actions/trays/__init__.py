"""Sowing, the daily deeds, the weigh-in, and what is shown of trays."""
