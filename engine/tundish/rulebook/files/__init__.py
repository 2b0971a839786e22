"""Reads the files of a rule pack."""
