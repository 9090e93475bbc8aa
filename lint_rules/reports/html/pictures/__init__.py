"""The pictures of the editor's report, a module each. Every one comes with its text and its numbers as a table."""
