"""What the forms of a rulebook say: the walk, the starters, the unit sheet."""
