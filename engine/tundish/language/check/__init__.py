"""The type checker: kinds, dimensions and names of an expression."""
