"""Commands about seed."""
