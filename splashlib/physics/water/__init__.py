"""Water: what meets it, crown, dome, cavity, crater, jet, the body under it. `physics.water_entry` is the door."""
