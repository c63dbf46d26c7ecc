"""Commands of the room."""
