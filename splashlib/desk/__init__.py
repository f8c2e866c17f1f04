"""The commands of `python -m splashlib`: one module each, gathered in `commands.py`.

This is the only floor that may import `lessons`.
"""
