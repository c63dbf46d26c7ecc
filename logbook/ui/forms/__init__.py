"""Forms and questions."""
