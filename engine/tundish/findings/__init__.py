"""A job and a rulebook made into findings."""
