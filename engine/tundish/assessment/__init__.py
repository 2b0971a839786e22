"""A job and the rulebook, made into findings."""
