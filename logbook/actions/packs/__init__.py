"""What is done with pack lots."""
