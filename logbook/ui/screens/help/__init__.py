"""Begin, help and the handbook."""
