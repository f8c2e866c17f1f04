"""The lesson `start`: one drop from hand to picture."""
