"""Commands that look after the book, and files in and out."""
