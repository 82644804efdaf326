"""What a coach may want to know of a deck beyond what the reader finds; pure checks."""
