"""The learner's set-up as a file: reading, writing, the template, where the files are."""
