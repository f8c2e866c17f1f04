"""Splash Lessons: high-speed flash photography of things falling into water."""
