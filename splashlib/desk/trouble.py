"""What went wrong in a way that the user can put right."""


class Trouble(Exception):
    """Its text is one line for the user: what is wrong, and what to do about it."""
