"""Questions as plain data, with their variants, words and units."""
