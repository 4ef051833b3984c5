"""No example is judged by how long it takes: that would be the machine's load, not the code."""

from hypothesis import settings

settings.register_profile("functions", deadline=None)
settings.load_profile("functions")
