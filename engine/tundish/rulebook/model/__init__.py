"""The plain records of a rulebook."""
