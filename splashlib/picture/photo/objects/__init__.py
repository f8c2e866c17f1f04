"""What is solid in the photograph: the body, the set at rest, the beam's red spots."""
