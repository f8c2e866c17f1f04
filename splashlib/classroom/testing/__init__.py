"""What an author's test calls: the proof of a lesson's exercises, and hostile answers for it."""
