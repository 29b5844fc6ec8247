"""Worked answers: the route from the printed numbers to the answer, line by line."""
