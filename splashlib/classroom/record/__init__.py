"""What a learner has done: the progress file, and where that leaves them."""
