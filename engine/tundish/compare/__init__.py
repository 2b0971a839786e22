"""What differs between two jobs, or for one job between two rulebooks."""
