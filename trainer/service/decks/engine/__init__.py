"""A UCI engine: its process, and what is kept of its answers."""
