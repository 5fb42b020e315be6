"""Stock divided among all that is wanted, proven by a solver."""
