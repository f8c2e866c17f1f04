"""Pictures: the simulated photograph, and every figure of the course.

The photograph needs numpy alone; figures (in the modules here) load matplotlib.
"""

from splashlib.picture.photo.photograph import described, photograph

__all__ = ["described", "photograph"]
