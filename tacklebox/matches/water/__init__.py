"""At the water: what to change when, and the record of what was tapped there."""
