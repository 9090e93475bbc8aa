"""What children do that can hurt someone, what a note must say of it, and what is sensitive."""
