"""Changes of mind: corrections, withdrawals, what was said once more."""
