"""Evaluates formulas: exact numbers, units, lists and an author's named steps."""
