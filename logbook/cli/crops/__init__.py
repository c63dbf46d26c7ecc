"""Commands of crop templates."""
