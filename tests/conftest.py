"""What holds for every test."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

# A property must hold, whatever else keeps the machine busy: how long an example takes decides nothing.
settings.register_profile("shared", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("shared")
