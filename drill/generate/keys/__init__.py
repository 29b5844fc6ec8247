"""Builds keys from the numbers: correct answers, marking points, the result of each slip."""
