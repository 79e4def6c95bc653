"""Property tests here are judged by what they find, not by the machine's load."""

from hypothesis import settings

settings.register_profile("steady", deadline=None)
settings.load_profile("steady")
