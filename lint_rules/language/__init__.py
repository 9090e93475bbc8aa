"""What a text is made of: tokens, sentences, structures and word levels, as plain data."""
