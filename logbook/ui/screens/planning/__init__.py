"""The screen of the plan."""
