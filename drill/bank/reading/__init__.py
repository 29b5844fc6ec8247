"""Turns an author's TOML tables into values: one reader for each kind of table."""
