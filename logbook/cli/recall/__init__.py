"""Commands about holds and recalls."""
