"""The proof of assembly of a piece, and its record for piece.json."""

from __future__ import annotations

from typing import Any

from furniture.assembly.body import Body, moved
from furniture.assembly.dowels import dowel_facets
from furniture.assembly.planner import plan_of
from furniture.assembly.seen import Scene
from furniture.assembly.values import AssemblyPlan, NoOrder, Step
from furniture.parts.ways import way_in_words
from furniture.pieces.piece import Piece
from furniture.solids.facets import Facet
from furniture.units import listed


def assembly_of(piece: Piece, scene: Scene | None = None) -> AssemblyPlan | NoOrder:
    """An order in which the piece goes together by straight moves, or why there is none.

    Tried are the six ways along the piece and the ways of its joints; parts move one at a time or
    as sub-assemblies of which each is together before it moves. A move has one straight leg, or a
    long and a short one where one does not serve. A move that turns is not found.

    Args:
        piece: no two of its parts overlap.
        scene: its parts in their places, where others look at them too.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    return plan_of(scene or scene_of(piece), piece.joinings)


def scene_of(piece: Piece) -> Scene:
    """The parts of a piece in their places, as the proofs of assembly see them.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    return Scene(bodies_of(piece))


def bodies_of(piece: Piece) -> tuple[Body, ...]:
    """The parts of a piece as the planner needs them, dowels standing in the incoming part.

    Raises:
        SolidError: a part's solid cannot be made.
    """
    from furniture.solids.facets import facets_of
    from furniture.solids.make import centre_of, volume_of

    pegs: dict[str, tuple[Facet, ...]] = {}
    for joining in piece.joinings:
        for each in joining.fasteners:
            if each.is_glued:  # it stands in its bore before the parts go together
                pegs[joining.incoming] = pegs.get(joining.incoming, ()) + dowel_facets(each)
    return tuple(
        Body(
            name=each.instance,
            facets=moved(facets_of(each.part), each.placement) + pegs.get(each.instance, ()),
            volume_mm3=volume_of(each.part),
            centre=each.placement.to_piece(centre_of(each.part)),
        )
        for each in piece.placed
    )


def step_in_words(step: Step) -> str:
    """A step as a maker would say it."""
    moving = set(step.moving)
    closing = tuple(dict.fromkeys(b if a in moving else a for a, b in step.joints)) or step.onto
    what = listed(step.moving)
    if len(step.moving) > 1:
        what = f"{what}, already together,"
    way = way_in_words(step.direction)
    if step.before is None:
        return f"Push {what} {way}, home to {listed(closing)}."
    return (
        f"Bring {what} {way_in_words(step.before.way)} to {listed(closing)}, "
        f"then push {'it' if len(step.moving) == 1 else 'them'} {way}, home."
    )


def assembly_record(result: AssemblyPlan | NoOrder) -> list[dict[str, Any]] | dict[str, Any]:
    """The proof as plain data: a list of steps, or what is stuck and why."""
    if isinstance(result, NoOrder):
        return {"stuck": list(result.stuck), "reason": result.reason}
    return [
        {
            "moving": list(step.moving),
            "onto": list(step.onto),
            "direction": [round(value, 9) + 0.0 for value in step.direction],
            "before": None
            if step.before is None
            else {
                "direction": [round(value, 9) + 0.0 for value in step.before.way],
                "left_mm": round(step.before.left_mm, 3),
            },
            "joints": [list(pair) for pair in step.joints],
            "in_words": step_in_words(step),
        }
        for step in result.steps
    ]
