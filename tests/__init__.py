"""Tests, and programs that measure what the code promises."""
