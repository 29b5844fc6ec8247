"""Reading authors' files within size limits: text, TOML with line numbers, and faults found."""
