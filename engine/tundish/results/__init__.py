"""A judgement as data: put out, read back, verified."""
