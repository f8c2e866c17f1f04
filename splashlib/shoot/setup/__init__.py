"""One set-up as plain data: its parts, the table of fields, what cannot be true together."""
