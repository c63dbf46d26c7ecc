"""The rules of the trade: frozen values and pure functions, no I/O, no clock."""
