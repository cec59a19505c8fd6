"""What a value is of: its part, its characteristic, its place, and when it asks."""
