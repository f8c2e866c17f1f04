"""What stands in a notebook: the panel, the form, the card that writes a decision."""
