"""Customers, orders and deliveries as plain commands."""
