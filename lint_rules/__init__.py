"""Hornbook: proofs the manuscripts of English courses for children aged 6 to 10."""

__version__ = "0.2.0"
