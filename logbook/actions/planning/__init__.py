"""Planning: what is wanted, and what to sow for it."""
