"""How hard hypothesis tries: quickly at the bench, longer where CI is set; the same examples every time."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

os.environ["MECHCALC_PROGRESS"] = ""  # tests answer exercises; a developer's own progress is not touched by that
os.environ["MECHCALC_CACHE"] = ""  # nor are files kept in anybody's cache
pytest_plugins = ["ci_rules"]  # what a skipped test and a missing browser mean in CI

SLOW_IS_FINE = [HealthCheck.too_slow, HealthCheck.data_too_large]

settings.register_profile("quick", max_examples=60, derandomize=True, deadline=None, database=None,
                          suppress_health_check=SLOW_IS_FINE)
settings.register_profile("ci", max_examples=500, derandomize=True, deadline=None, database=None,
                          suppress_health_check=SLOW_IS_FINE)
settings.load_profile("ci" if os.environ.get("CI") else "quick")
