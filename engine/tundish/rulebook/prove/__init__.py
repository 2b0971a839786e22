"""Runs rules on their cases, and tries how much the cases catch."""
