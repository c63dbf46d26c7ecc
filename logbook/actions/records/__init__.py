"""Records that rules ask for, put together from the book."""
