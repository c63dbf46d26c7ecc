"""What leaves and enters as files."""
