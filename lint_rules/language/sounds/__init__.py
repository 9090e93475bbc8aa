"""How words are said and spelled."""
