"""Rules about the manuscript file itself and about what is let stand in it."""
