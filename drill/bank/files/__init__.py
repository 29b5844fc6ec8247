"""Reading authors' files within bounds: text, TOML with the line of every key, and faults."""
