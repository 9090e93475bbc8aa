"""What a text says and is made of: tokens, structures, word levels; times, answers, references, sets of words."""
