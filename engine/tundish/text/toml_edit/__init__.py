"""Changes a TOML text and leaves the rest of it as it was."""
