"""What can be done with decks: add, compare, show, check, pack, print, withdraw."""
