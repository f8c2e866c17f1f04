"""The lesson on the beam: where it goes, and the delay that belongs to it."""
