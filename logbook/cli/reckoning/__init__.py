"""The calculators; nothing is written."""
