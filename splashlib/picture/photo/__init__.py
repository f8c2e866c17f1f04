"""The parts of the simulated photograph: where things are in the frame, how they look, how the frame is exposed."""
