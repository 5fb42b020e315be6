"""Tacklebox: terminal tackle in stock, rigs as recipes, labels for winders."""

__version__ = "0.1.0"
