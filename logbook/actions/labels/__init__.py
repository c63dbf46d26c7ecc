"""Labels of packs and tapes of trays, from the book."""
