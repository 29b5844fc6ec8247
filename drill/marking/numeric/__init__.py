"""Marking numbers: reading them, their units, the working beside them, and known wrong routes."""
