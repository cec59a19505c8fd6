"""What was heard a little wrong: how alike words sound, what is mended by it, what asks because of it."""
