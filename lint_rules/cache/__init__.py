"""What is kept between runs: answers by content, never by time stamp. A run without it finds the same."""
