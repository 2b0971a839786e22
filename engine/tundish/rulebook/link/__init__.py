"""Checks the rules of all packs together."""
