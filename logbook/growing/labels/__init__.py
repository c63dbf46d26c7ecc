"""What stands on a label: who made it, its numbers, its lines."""
