"""Side-by-side trials: set up, sow, judge, decide."""
