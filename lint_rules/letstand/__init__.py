"""Findings that do not count: let stand by a stet, or carried over from before the course adopted hornbook."""
