"""Algorithms that no formula can state: those that iterate, and correlations of properties."""
