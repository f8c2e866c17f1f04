"""The panel of the lesson `beam`: its picture, its words and its own charts."""
