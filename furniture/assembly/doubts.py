"""What a maker must hear of the joints themselves: doubtful fits, and each kind's own advice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from furniture.checks.finding import Finding, Verdict, without_figure
from furniture.checks.rows.proofs import BARE_MITRE, FINISH_FILLS, FIT, JOINT_ADVICE
from furniture.joints import Concern, FitCaution, fit_cautions
from furniture.joints.joint import Joining, Role
from furniture.joints.reading import is_face_to_face, is_flat_mitre
from furniture.pieces import Piece, placed_named


def fit_doubts(piece: Piece) -> tuple[Finding, ...]:
    """A caution for each doubtful fit, equal ones told together; or that there is none.

    Args:
        piece: its finish says what is put on before it goes together.

    **Source:** `furniture/joints/fit.py`: what glue bridges, and what a coat of film adds.
    """
    housed = [each for each in piece.joinings if each.fit is not None]
    if not housed:
        return ()
    groups: dict[FitCaution, list[Joining]] = {}
    for joining in housed:
        for doubt in fit_cautions(
            joining.clearance_mm,
            is_glued=joining.glue_area_mm2 > 0.0,
            coats_inside=0 if piece.finish is None else piece.finish.coats,
            film_per_coat_mm=0.0 if piece.finish is None else piece.finish.film_mm,
            shown=piece.shown,
        ):
            groups.setdefault(doubt, []).append(joining)
    if not groups:
        finish = "no finish is put on before" if piece.finish is None else "the finish leaves room"
        words = f"glue bridges every glued clearance, and {finish}"
        return (without_figure(FIT, Verdict.OK, words),)
    rows = {Concern.FINISH_EATS_IT: FINISH_FILLS, Concern.GLUE_CANNOT_BRIDGE: FIT}
    return tuple(
        Finding(
            check=rows[doubt.concern],
            subject=_joints_in_words(joinings),
            value=doubt.clearance_mm,
            limits=rows[doubt.concern].limits(cautions=doubt.limit_mm),
            basis=doubt.concern.value,
            advice=doubt.advice,
        )
        for doubt, joinings in groups.items()
    )


def joint_advice(piece: Piece) -> tuple[Finding, ...]:
    """What the joints say of themselves, those of one kind together.

    A flat mitre that no spline or key crosses is a caution; the rest is for the maker to know.

    Args:
        piece: the piece.

    **Source:** common practice, no source: each joint's own file says it.
    """
    crossed = _strengthened(piece.joinings)
    groups: dict[tuple[str, str, bool, bool], list[Joining]] = {}
    for joining in piece.joinings:
        # Plain butts at an end grain are a check of their own, which says how many dowels.
        if not joining.advice or is_face_to_face(joining):
            continue
        is_crossed = frozenset((joining.into, joining.incoming)) in crossed
        is_flat = is_flat_mitre(joining, placed_named(piece, joining.incoming))
        groups.setdefault((joining.kind, joining.advice, is_crossed, is_flat), []).append(joining)
    return tuple(
        without_figure(
            BARE_MITRE if is_flat else JOINT_ADVICE,
            _verdict(is_flat, is_crossed),
            f"{kind}: {'splines or keys cross it' if is_crossed else 'nothing but its own faces'}",
            subject=_joints_in_words(joinings),
            advice=advice,
        )
        for (kind, advice, is_crossed, is_flat), joinings in groups.items()
    )


def _verdict(is_flat: bool, is_crossed: bool) -> Verdict:
    """A flat mitre's glue line alone is a caution: no check reckons what it holds."""
    if not is_flat:
        return Verdict.NOTE
    return Verdict.OK if is_crossed else Verdict.CAUTION


def _strengthened(joinings: Sequence[Joining]) -> set[frozenset[str]]:
    """The pairs of parts that a spline or a key crosses: both have a joint with the same one."""
    held: dict[str, list[str]] = {}
    for joining in joinings:
        if joining.role is Role.LOOSE_TONGUE:
            held.setdefault(joining.incoming, []).append(joining.into)
    return {frozenset(pair) for pair in held.values()}


def _joints_in_words(joinings: Iterable[Joining]) -> str:
    return "; ".join(f"{each.incoming} and {each.into}" for each in joinings)
