"""What is taken to the water: one page for the phone that needs no signal, one card for the pocket."""
