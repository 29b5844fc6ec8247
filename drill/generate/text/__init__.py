"""Fills values into an author's text, and writes formulas as a pupil would."""
