"""Pack lots: what leaves the room, and the way that it came."""
