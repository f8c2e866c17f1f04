"""The panels of the lesson `splash`: the stages and the wet zone, with their words and charts."""
