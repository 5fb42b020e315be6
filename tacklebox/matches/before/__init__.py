"""Before a match: the plan, what is low, shopping, packing, the venue's rules."""
