"""What was found on a part, what was not, and what is decided on it."""
