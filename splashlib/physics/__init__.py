"""Formulas on numbers and arrays in SI units; each has one home and says where it stops being valid.

``fall`` takes a height to time and speed, ``pulse`` is the light of a flash in time, ``blur`` the streak
it draws, ``stops`` exact exposure steps, ``exposure`` flash and room light, ``lens`` size and sharpness,
``water_entry`` and ``droplets`` the splash. ``constants`` holds every constant with its source, ``checks``
the refusals and warnings. Import the module you need; nothing is loaded here, so that the import is cheap.
"""
