"""Structures, their levels, and the labels that teachers give them."""
