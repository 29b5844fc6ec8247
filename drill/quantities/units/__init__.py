"""Units: the table of units, how people spell them, and conversions."""
