"""Rules about the target words of a course: taught, met again, tested."""
