"""Marking short answers: choices, orders and names."""
