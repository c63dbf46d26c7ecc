"""Screens about packs: what leaves the room, and the way that it came."""
