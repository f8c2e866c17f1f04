"""The lesson `camera`: is the camera fast enough, or must the flash be fired into an open shutter?"""
