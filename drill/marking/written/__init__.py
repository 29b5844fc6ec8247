"""Marking written answers: an answer as sentences, patterns of a mark scheme found in it."""
