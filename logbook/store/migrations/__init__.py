"""Alembic's scripts for the book's tables."""
