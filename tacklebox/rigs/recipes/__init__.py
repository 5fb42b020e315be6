"""Recipe files: their shape, what is chosen, and the figures that follow."""
