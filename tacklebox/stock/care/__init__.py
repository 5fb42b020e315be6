"""The box's own care: schema, opening, triggers, audit, copies, export, upgrade, undo."""
