"""Which parts are spoken of: named, pointed at, left out, and what is said of them."""
