"""The screens: each draws, reads keys and decides nothing."""
