"""Sides and positions: which is turned to, which are named, which a value is of."""
