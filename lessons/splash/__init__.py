"""The lesson `splash`: what the water does, and when."""
