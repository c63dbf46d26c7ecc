"""The book's file and its tables."""
