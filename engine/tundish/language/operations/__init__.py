"""What operators and functions mean."""
