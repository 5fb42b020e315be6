"""How a rig falls through still water, in time; a model that was never compared with water."""
