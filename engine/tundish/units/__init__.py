"""Quantities and units."""
