"""What a run found, written for a terminal, for machines, and for the editor's desk."""
