"""Rules about instructions: what tells a child what to do."""
