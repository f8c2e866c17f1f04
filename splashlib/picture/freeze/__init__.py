"""The panel of the lesson `freeze`: its picture, its words and its own charts."""
