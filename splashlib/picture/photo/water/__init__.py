"""What the water is in the photograph: crown, walls, column, surface, droplets."""
