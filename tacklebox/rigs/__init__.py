"""Recipes, fitting, checks, tying: from a file that asks for tackle to a rig on a winder."""
