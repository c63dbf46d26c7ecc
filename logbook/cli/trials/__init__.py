"""Commands of trials."""
