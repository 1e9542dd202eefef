"""Building a sheet from a wiring diagram by following the current, one small step after another."""
