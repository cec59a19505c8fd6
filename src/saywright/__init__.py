"""Saywright: an offline bench logger."""
