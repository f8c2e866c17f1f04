"""Air: its drag, the air that a body carries along, a droplet's flight, what the beam leaves of a bad release."""
