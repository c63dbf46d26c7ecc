"""Customers and their orders, written and looked at."""
