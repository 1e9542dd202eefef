"""Finds the cause of a dead low-voltage circuit in a vehicle."""

RELEASE = "0.1.0"
