"""The evaluators: compiled, explained, ranges and columns."""
