"""The panels of the lesson `camera`: lags and curtains, with their words and charts."""
