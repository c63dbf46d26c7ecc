"""What the grower can do, on a real book."""
