"""What the grower can do: one function, one intention, one transaction."""
