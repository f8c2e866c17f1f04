"""The panel of the lesson `stops`: its picture, its words and its own charts."""
