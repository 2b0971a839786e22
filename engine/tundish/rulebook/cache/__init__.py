"""A linked rulebook kept between runs."""
