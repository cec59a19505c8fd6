"""Counts: turns counted aloud, things counted aloud, how many are meant."""
