"""Judges the rules of a rulebook on a job."""
