"""The interview: questions about one job, one after the other, whose answers go into its file."""
