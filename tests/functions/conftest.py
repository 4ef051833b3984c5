"""Settings of the random tests: a build server tries the same examples each time, a maintainer new ones."""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "loftsheet",
    deadline=None,
    derandomize=os.environ.get("CI") == "true",
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
settings.load_profile("loftsheet")
