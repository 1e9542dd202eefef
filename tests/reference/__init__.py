"""Published values against the reference tables."""
