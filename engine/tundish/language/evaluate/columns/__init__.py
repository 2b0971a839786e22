"""Evaluates an expression for many jobs at once, column by column."""
