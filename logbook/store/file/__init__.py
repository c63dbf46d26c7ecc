"""What is SQLite's alone: the file, its copies, its health, upgrading it."""
