"""Numbers that prose states: named in lessons/NAME/numbers.py, written [[name to 1 ms]], filled by the build."""
