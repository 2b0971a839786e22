"""The typed tree that all evaluators read."""
