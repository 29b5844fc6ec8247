"""The language of formulas: text becomes tokens, tokens become a small tree, and back again."""
