"""Places, lamps, light, air, water, bills."""
