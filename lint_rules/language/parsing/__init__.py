"""From a passage to words with tags and a parse, corrected for the English of courses."""
