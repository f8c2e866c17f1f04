"""The one chain of events: scatter, motion, stages, dated events, timeline, what is in the frame."""
