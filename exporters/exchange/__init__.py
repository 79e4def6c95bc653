"""A made folder exchanged for the one that stands: whole, locked, and put right after a kill."""
