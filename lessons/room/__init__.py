"""The lesson `room`: how dark is dark enough."""
