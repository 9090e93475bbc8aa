"""Correct English: no slips of grammar or spelling, and one variety of English through the book."""
