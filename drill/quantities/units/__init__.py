"""Units: the table of them, how people spell them, and turning one into another."""
