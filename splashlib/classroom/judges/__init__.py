"""The judges: from an answer to a reply, one module for each kind of question."""
