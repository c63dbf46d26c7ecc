"""Screens of customers and deliveries."""
