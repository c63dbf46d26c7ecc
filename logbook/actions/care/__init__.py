"""Looking after the book: begin, check, copy, restore."""
