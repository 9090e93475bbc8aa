"""Rules about exercises: keys, word boxes, gaps, letters, options."""
