"""The database, and only the database."""
