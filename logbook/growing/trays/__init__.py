"""A tray's life: chores, stages, looks, the round, the weigh-in."""
