"""Rules about the teacher's notes: what a teacher must find there, and what belongs there only."""
