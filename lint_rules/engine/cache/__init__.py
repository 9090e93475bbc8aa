"""What is kept between runs, by content."""
