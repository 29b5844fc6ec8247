"""Papers: put together, written out, marked by hand and entered."""
