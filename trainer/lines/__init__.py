"""Positions and the lines that lead to them. Pure: the standard library and `chess` only."""
