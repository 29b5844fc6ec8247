"""An author's tables become values: one reader for each kind of table."""
