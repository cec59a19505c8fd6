"""What is not for the record, and what is noted beside it: serial numbers, pictures."""
