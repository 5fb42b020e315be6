"""What the audit judges beside the sums: each function yields where something is wrong, and what."""
