"""What follows from the chain: delays, beam height, flash duration, room light, exposure, advice."""
