"""What a coach prints for the class: a deck as sections of text, moves and diagrams."""
