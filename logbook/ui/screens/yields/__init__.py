"""Screens of yields and costs."""
