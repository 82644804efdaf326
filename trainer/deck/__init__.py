"""Deck files in, trees of moves and findings out."""
