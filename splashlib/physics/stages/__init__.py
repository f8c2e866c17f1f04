"""The stages of a splash, put together from the parts in `physics.water`. `physics.water_entry` is the door."""
