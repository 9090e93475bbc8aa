"""The core: course and texts in, findings out; and what is kept between runs."""
