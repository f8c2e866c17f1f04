"""The panel of the lesson `start`: its picture and its own charts."""
