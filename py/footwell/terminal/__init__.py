"""The core from a terminal: what is printed comes from the same calls as what the page shows."""
