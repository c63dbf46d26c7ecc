"""The room: places, light, lamps and their cost, air, water."""
