"""Commands about costs."""
