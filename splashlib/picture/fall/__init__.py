"""The panel of the lesson `fall`: its picture and its own charts."""
