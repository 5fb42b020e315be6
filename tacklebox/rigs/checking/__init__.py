"""Judgements on a fitted rig."""
