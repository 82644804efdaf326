"""An opening line trainer for the terminal: decks in, cards out, lines that stay."""
