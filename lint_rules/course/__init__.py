"""The course file and its word lists: read, checked, and held as plain data."""
