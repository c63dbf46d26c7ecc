"""What may not go on, and what has to come back."""
