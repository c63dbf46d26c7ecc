"""The commands of planning."""
