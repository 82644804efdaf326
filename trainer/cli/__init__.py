"""The command line: thin commands over the use cases, and the plain and JSON sittings."""
