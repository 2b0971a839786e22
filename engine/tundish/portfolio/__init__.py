"""Many jobs that stand in a table, judged at once."""
