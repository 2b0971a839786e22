"""What is kept between runs: a folder of our own, guarded against strangers."""
