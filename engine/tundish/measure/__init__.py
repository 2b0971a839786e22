"""Quantities: dimensions, units of the trade, reading "22 L/min" and showing it again."""
