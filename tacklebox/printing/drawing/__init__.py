"""A rig drawn to be known at a glance."""
