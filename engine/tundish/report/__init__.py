"""Findings, rules and proofs, told to people and to programs."""
