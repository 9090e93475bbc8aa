"""Rules about a unit's parts: the course's pattern, numbering, references, scripts and answers."""
