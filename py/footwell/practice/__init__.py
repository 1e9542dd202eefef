"""A simulated electrician at a vehicle with a hidden fault: for practice, for tests and for figures."""
