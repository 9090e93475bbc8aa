"""Exercises: items, options, gaps, word boxes and keys, read from an activity's page as plain data."""
