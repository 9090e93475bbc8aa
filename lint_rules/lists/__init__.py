"""The lists that a house compiles from a manuscript: one module a list, each a function from a book to tables."""
