"""Posts and rails in a ring, as stools, tables and stands have them."""

from __future__ import annotations

from tests.hazards.making import Y, Z, board, dowels


def framed(wood, width, depth, height, post, rail, low=None):
    """Four posts and four rails on dowels that stand for tenons, and a second set if wanted."""
    boards, joints = [], []
    for x, y in ((0, 0), (width - post, 0), (0, depth - post), (width - post, depth - post)):
        boards.append(board(f"post {x:g} {y:g}", wood, (x, y, 0), (post, post, height), Z))
    heights = [("upper", height - rail)] + ([] if low is None else [("lower", low)])
    inset = (post - 18) / 2
    for what, z in heights:
        for y in (0, depth - post):
            boards.append(
                board(
                    f"{what} rail {y:g}", wood, (post, y + inset, z), (width - 2 * post, 18, rail)
                )
            )
            joints += dowels(
                f"{what} rail {y:g}",
                f"post 0 {y:g}",
                f"post {width - post:g} {y:g}",
                size=8,
                length=40,
            )
        for x in (0, width - post):
            boards.append(
                board(
                    f"{what} end rail {x:g}",
                    wood,
                    (x + inset, post, z),
                    (18, depth - 2 * post, rail),
                    Y,
                )
            )
            joints += dowels(
                f"{what} end rail {x:g}",
                f"post {x:g} 0",
                f"post {x:g} {depth - post:g}",
                size=8,
                length=40,
            )
    return boards, joints
