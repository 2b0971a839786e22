"""Evaluates trees over ranges of their inputs, as intervals of numbers and sets of choices."""
