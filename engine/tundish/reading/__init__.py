"""Reading TOML from strangers: its text, the place of every key, and problems told plainly."""
