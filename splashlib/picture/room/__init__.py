"""The panel of the lesson `room`: its picture, its words and the ladder of light."""
