"""The daily screens."""
