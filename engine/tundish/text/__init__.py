"""Files of strangers, read with bounds and places."""
