"""What is still to be found out, ranked by what it decides."""
