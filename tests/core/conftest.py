"""No test fails because the machine is busy: examples have no time limit of their own."""

from hypothesis import settings

settings.register_profile("footwell", deadline=None)
settings.load_profile("footwell")
