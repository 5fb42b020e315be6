"""Labels and drawings: geometry, words on paper, PDF."""
