"""What trays cost, part by part, and what is left of what they sell for."""
