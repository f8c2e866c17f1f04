"""For teachers: three demonstrations, plans for a workshop, what learners get wrong, the report on a class."""
