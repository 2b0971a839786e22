"""Reads untrusted files within bounds, and knows the places of what is in them."""
