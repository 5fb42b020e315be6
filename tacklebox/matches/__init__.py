"""Before and after a match: what runs low, what to buy."""
