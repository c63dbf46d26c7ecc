"""`logbook label` and `tape`."""
