"""What stands on a page and how it is meant. Knows the manuscript, never the language."""
