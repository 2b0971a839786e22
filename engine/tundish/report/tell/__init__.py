"""What is said, as lines."""
