"""Rules about the level of what children read and hear: words, grammar, length."""
