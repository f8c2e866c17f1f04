"""The lesson `fall`: how fast it falls."""
