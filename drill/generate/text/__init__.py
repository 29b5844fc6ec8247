"""Putting values into an author's text, and formulas as a pupil writes them."""
