"""The terminal at the other end of the line: its signs, its keys, what is sent to it."""
