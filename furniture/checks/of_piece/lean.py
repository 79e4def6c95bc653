"""How far a piece leans under a push sideways, its feet held."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece.bent import Bends
from furniture.checks.rows.bending import LEAN
from furniture.parts.vectors import scaled
from furniture.rules import Rules
from furniture.rules.bearing import LEAN_PUSH, LEAN_SHARE, RACKS_FROM
from furniture.structure.bending import spread_weights
from furniture.structure.cases import SWAY_N, pushes_of
from furniture.structure.elastic import bent_under
from furniture.structure.held import highest_fixed, push_as_one_n


def leans(bends: Bends, show: Show, rules: Rules) -> Iterable[Finding]:
    """How far the highest part that does not come off leans under a push, as far as it stands.

    Args:
        bends: the piece, ready to be bent
        show: puts amounts into the piece's unit
        rules: the maker's

    **Source:** plates on springs; limits own rules.
    """
    piece, frame = bends.piece, bends.frame
    body = highest_fixed(piece, frame)
    if body is None:
        return
    height = frame.masses[body].centre_mm[2] - min(link.at[2] for link in frame.floor)
    if height < rules[RACKS_FROM]:
        return
    weights = spread_weights(piece, frame)
    for case in pushes_of(piece, frame, body):
        force = min(rules[LEAN_PUSH], push_as_one_n(frame, case))
        [push] = case.pushes
        way = scaled(push.force_n, 1.0 / SWAY_N)
        [bent] = bent_under(bends.glued, [[*weights, replace(push, force_n=scaled(way, force))]])
        if bent is None:
            continue
        yield Finding(
            check=LEAN,
            subject="the whole piece",
            value=abs(bent.moved(body, push.at, way)),
            limits=LEAN.limits(cautions=height * rules[LEAN_SHARE]),
            basis=f"{case.told} with {show.force(force)}, {show(height)} up, its feet held; by "
            "plates on springs: right to a third or so",
            advice="brace it: a back, a rail, or deeper joints",
        )
