"""Recognising mistakes in broken TOML, so that its writer learns how to correct them."""
