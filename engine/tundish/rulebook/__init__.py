"""Reading, linking and proving the declarative rules."""
