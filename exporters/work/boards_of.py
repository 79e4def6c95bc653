"""Which boards the parts of a piece are cut from."""

from __future__ import annotations

from furniture.making.making import Making
from furniture.making.workpieces import Wood


def boards_of(making: Making) -> dict[str, tuple[str, ...]]:
    """The boards that each instance comes from, by their names; none where no plan lays it.

    One that is glued up comes from those of its strips.

    Args:
        making: of the piece.
    """
    known = {each.id: each for each in making.workpieces}
    found: dict[str, tuple[str, ...]] = {}
    for wood in making.workpieces:
        if wood.what is not Wood.PART:
            continue
        for name in (each.id for each in wood.glued_of) if wood.glued_of else (wood.id,):
            root = known[name]
            while root.source is not None:
                root = known[root.source]
            if root.board is not None:
                for instance in wood.instances:
                    boards = (*found.get(instance, ()), root.board)
                    found[instance] = tuple(dict.fromkeys(boards))
    return found
