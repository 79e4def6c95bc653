"""How the piece comes about: operations on pieces of wood, from the board to the last coat."""
