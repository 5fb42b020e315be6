"""After a match: what was taken, and what became of it."""
