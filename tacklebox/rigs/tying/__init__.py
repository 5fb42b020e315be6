"""Tying from stock: steps, codes, the snapshot, and what becomes of tied rigs."""
