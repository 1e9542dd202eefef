"""Finds the cause of a dead low-voltage circuit in a vehicle."""
