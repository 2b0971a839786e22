"""Lines laid out on a page or a terminal."""
