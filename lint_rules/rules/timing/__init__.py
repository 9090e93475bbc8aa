"""Timing: whether lessons fit their length, add up, and fill the hours a level promises."""
