"""Widgets that the screens share; each has its style sheet beside it."""
