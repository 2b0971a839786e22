"""Finds facts, and the rules that read them."""
