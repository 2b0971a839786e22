"""Editing one value in a TOML text, with everything else left as it was."""
