"""Formulas as they are typed: cut into tokens, read, valued. Nothing of them is ever run."""
